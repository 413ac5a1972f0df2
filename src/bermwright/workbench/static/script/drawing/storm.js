/** @file The storm axis: the loads of this stage. Unknown storms are dotted rings. */

import { drawn } from "../core/made.js";
import { against, heading } from "./axes.js";

const BASE = 28;
const STEP = 13;

/** @param {any} now @param {{width: number, left: number, right: number}} box */
export function stormAxis(now, box) {
  const cases = casesOf(now);
  const pitch = (box.width - box.left - box.right) / Math.max(1, cases.length);
  const spots = cases.map((/** @type {any} */ _, /** @type {number} */ at) => box.left + pitch * (at + 0.5));
  const at = Math.max(0, cases.findIndex((/** @type {any} */ one) => one.case === now.scene?.case));
  if (pitch < 62) return narrow(cases, { ...box, pitch, spots, at });
  const lines = Math.max(1, ...cases.map((/** @type {any} */ one) => folded(one.name, letters(pitch)).length));
  const items = [
    box.left > 40 ? heading(BASE + 4, "Storm") : null,
    drawn("path", { class: "axis-line", d: `M${box.left} ${BASE}H${box.width}` }),
    ...cases.flatMap((/** @type {any} */ one, /** @type {number} */ place) => load(one, spots[place], { pitch, lines, here: place === at })),
  ];
  return {
    svg: drawn("svg", { width: box.width, height: BASE + 22 + STEP * lines, class: "rule-drawing" }, ...items),
    at,
    spots,
    texts: cases.map((/** @type {any} */ one) => `${one.name}: ${one.ratio_text ?? ""} ${one.verdict}`),
    bobAt: cases.length ? { x: spots[at], y: BASE - 4 } : null,
  };
}

/** The loads of the shown stage, with what a full run found of them. @param {any} now */
export function casesOf(now) {
  const found = now.axes?.storm ?? [];
  if (found.length && now.axes.vault === now.scene?.vault && now.axes.stage === now.scene?.stage) return found;
  const stage = (now.scene?.stages ?? []).find((/** @type {any} */ one) => one.name === now.scene.stage);
  return (stage?.cases ?? []).map((/** @type {any} */ one) => ({ case: one.name, name: one.title, ratio: null, verdict: "unknown" }));
}

/** On a phone: ticks, and the name of the load in hand alone. @param {any[]} cases @param {any} box */
function narrow(cases, box) {
  const one = cases[box.at];
  const figure = one?.verdict === "fails" ? `${one.ratio_text} fails` : (one?.ratio_text ?? "");
  const items = cases.map((each, place) =>
    each.ratio === null || each.ratio === undefined
      ? drawn("circle", { class: "axis-unknown", cx: box.spots[place], cy: BASE, r: 4.5 })
      : drawn("path", { class: `axis-tick${against(each.verdict)}`, d: `M${box.spots[place]} ${BASE - 5}v10` }),
  );
  const words = [
    drawn("text", { class: "axis-label is-here", x: 0, y: BASE + 22 }, one?.name ?? ""),
    drawn("text", { class: `axis-label is-here${against(one?.verdict ?? "")}`, x: box.width, y: BASE + 22, "text-anchor": "end" }, figure),
  ];
  return {
    svg: drawn("svg", { width: box.width, height: BASE + 34, class: "rule-drawing" }, drawn("path", { class: "axis-line", d: `M0 ${BASE}H${box.width}` }), ...items, ...words),
    at: box.at,
    spots: box.spots,
    texts: cases.map((each) => `${each.name}: ${each.ratio_text ?? ""} ${each.verdict}`),
    bobAt: cases.length ? { x: box.spots[box.at], y: BASE - 4 } : null,
  };
}

/** @param {any} one @param {number} x @param {{pitch: number, here: boolean, lines: number}} box */
function load(one, x, box) {
  const look = `axis-label${box.here ? " is-here" : ""}`;
  const unknown = one.ratio === null || one.ratio === undefined;
  const figure = unknown ? "unknown" : one.verdict === "fails" && box.pitch > 76 ? `${one.ratio_text} fails` : one.ratio_text;
  const lines = folded(one.name, letters(box.pitch));
  return [
    unknown
      ? drawn("circle", { class: "axis-unknown", cx: x, cy: BASE, r: 4.5 })
      : drawn("path", { class: `axis-tick${against(one.verdict)}`, d: `M${x} ${BASE - 5}v10` }),
    ...lines.map((text, line) => drawn("text", { class: look, x, y: BASE + 18 + STEP * line, "text-anchor": "middle" }, text)),
    drawn("text", { class: look + against(one.verdict), x, y: BASE + 18 + STEP * box.lines, "text-anchor": "middle" }, figure ?? ""),
  ];
}

/** Letters of the lettering that fit. @param {number} pitch */
function letters(pitch) {
  return Math.max(4, Math.floor((pitch - 4) / 6));
}

/** A name on at most three lines. @param {string} text @param {number} most */
function folded(text, most) {
  const lines = [""];
  for (const piece of text.split(" ")) {
    const longer = `${lines.at(-1)} ${piece}`.trim();
    if (longer.length <= most || !lines.at(-1)) lines[lines.length - 1] = longer;
    else lines.push(piece);
  }
  const kept = lines.slice(0, 3).map((line) => (line.length > most ? `${line.slice(0, most - 1)}…` : line));
  if (lines.length > 3) kept[2] = `${kept[2].slice(0, most - 1)}…`;
  return kept;
}
