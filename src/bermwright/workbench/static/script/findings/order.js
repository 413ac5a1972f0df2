/** @file How findings are put in order: worst first, by part or by stage; the same rule of one part stands once. */

import { severity } from "../core/signs.js";

/** @typedef {import("../core/protocol.js").Finding} Finding */
/** @typedef {{first: Finding, others: Finding[]}} Stack   one rule of one part: its worst place, and the others */

/** @param {Finding} a @param {Finding} b */
function worse(a, b) {
  return severity(a.verdict) - severity(b.verdict) || (b.ratio ?? -1) - (a.ratio ?? -1);
}

/** @param {Finding[]} findings @returns {Stack[]} */
export function stacks(findings) {
  /** @type {Map<string, Finding[]>} */
  const by = new Map();
  for (const one of findings) {
    const key = `${one.rule} ${one.part} ${one.verdict}`;
    by.set(key, [...(by.get(key) ?? []), one]);
  }
  return [...by.values()]
    .map((list) => [...list].sort(worse))
    .map(([first, ...others]) => ({ first, others }))
    .sort((a, b) => worse(a.first, b.first));
}

/**
 * Groups with their names, in the order in which they are shown.
 * @param {Finding[]} findings
 * @param {"worst"|"part"|"stage"} manner
 * @param {string[]} stages in the order of building
 * @returns {{name: string, stacks: Stack[]}[]}
 */
export function groups(findings, manner, stages) {
  if (manner === "worst") return byVerdict(findings);
  const name = manner === "part" ? (/** @type {Finding} */ one) => one.part : (/** @type {Finding} */ one) => one.stage ?? "at no one stage";
  /** @type {Map<string, Finding[]>} */
  const by = new Map();
  for (const one of findings) by.set(name(one), [...(by.get(name(one)) ?? []), one]);
  const list = [...by].map(([group, inside]) => ({ name: group, stacks: stacks(inside) }));
  if (manner === "part") return list.sort((a, b) => worse(a.stacks[0].first, b.stacks[0].first));
  const place = (/** @type {string} */ stage) => (stages.indexOf(stage) + 1 || stages.length + 1);
  return list.sort((a, b) => place(a.name) - place(b.name));
}

/** @param {Finding[]} findings */
function byVerdict(findings) {
  const all = stacks(findings.filter((one) => one.verdict !== "does not apply"));
  const open = all.filter((one) => one.first.verdict !== "holds");
  const held = all.filter((one) => one.first.verdict === "holds");
  return [
    { name: "", stacks: open },
    { name: "holds", stacks: held },
  ].filter((group) => group.stacks.length);
}
