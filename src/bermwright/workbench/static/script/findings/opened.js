/** @file A finding opened: its working line by line, sources, how they are known, and what would make it hold. */

import { fill, made, word } from "../core/made.js";
import { sign, slug, verdictWord } from "../core/signs.js";
import { figure, placeLine } from "./list.js";
import { remedies } from "./remedies.js";

/** Functions of the evidence that stand open. */
const SHOWN = 6;

/**
 * @param {HTMLElement} leaf
 * @param {any} finding
 * @param {{store: any, wire: any, close: () => void, look: (finding: any) => void}} ways
 */
export function drawOpened(leaf, finding, ways) {
  const sources = numbered(finding);
  fill(
    leaf,
    made(
      "article",
      { class: `opened is-${slug(finding.verdict)}` },
      head(finding, ways),
      made("p", { class: "place-line" }, placeLine(finding)),
      finding.why ? made("p", { class: "why" }, finding.why) : null,
      finding.advice ? made("p", { class: "advice" }, made("b", {}, "Do. "), finding.advice) : null,
      finding.verdict === "fails" || finding.verdict === "tight" ? remedies(finding, ways) : null,
      working(finding, sources),
      finding.corner ? made("p", { class: "corner" }, `Governed by: ${finding.corner}`) : null,
      sourceList(finding, sources),
      known(finding),
      evidence(ways.store.now.evidence?.[finding.rule]),
    ),
  );
}

/** @param {any} finding @param {any} ways */
function head(finding, ways) {
  return made(
    "header",
    { class: "opened-head" },
    made("span", { class: "sign" }, sign(finding.verdict, 24)),
    made("h3", { tabindex: -1, id: "opened-text" }, verdictWord(finding.verdict), " ", finding.text),
    made("span", { class: "ratio" }, figure(finding)),
    word("close", ways.close, { class: "word boxed" }),
  );
}

/** The different sources in the order in which the working needs them. @param {any} finding @returns {Map<string, string>} */
function numbered(finding) {
  const sources = new Map();
  for (const line of finding.working ?? []) add(sources, line.source, line.provenance);
  for (const cite of finding.cites ?? []) add(sources, cite.text, cite.provenance);
  return sources;
}

/** @param {Map<string, string>} sources @param {string} text @param {string} provenance */
function add(sources, text, provenance) {
  if (text && !sources.has(text)) sources.set(text, provenance ?? "");
}

/** @param {any} finding @param {Map<string, string>} sources */
function working(finding, sources) {
  const lines = finding.working ?? [];
  if (!lines.length) return made("p", { class: "quiet" }, "There is no working: what it needs is not known.");
  const names = [...sources.keys()];
  return made("ol", { class: "working", "aria-label": "Working, line by line" }, ...lines.map((/** @type {any} */ line) => workingLine(line, names)));
}

/** @param {any} line @param {string[]} names */
function workingLine(line, names) {
  const at = names.indexOf(line.source) + 1;
  return made(
    "li",
    {},
    made("p", { class: "line-says" }, line.says),
    made("p", { class: "line-sum" }, formula(line), at ? made("a", { class: "note-mark", href: `#source-${at}` }, String(at)) : null),
  );
}

/** symbol = formula = numbers = result, each piece once. @param {any} line */
function formula(line) {
  const pieces = [line.symbol, line.formula, line.filled].filter((one, at, all) => one && all.indexOf(one) === at && one !== line.result);
  return made("span", {}, pieces.join(" = "), pieces.length ? " = " : "", made("b", {}, line.result));
}

/** @param {any} finding @param {Map<string, string>} sources */
function sourceList(finding, sources) {
  if (!sources.size) return null;
  return made(
    "section",
    { class: "sources" },
    made("h4", {}, "Sources"),
    made("ol", {}, ...[...sources].map(([text, provenance], at) => made("li", { id: `source-${at + 1}` }, text, provenance && !text.includes(provenance) ? ` (${provenance})` : ""))),
  );
}

/** What the equations behind this finding are compared with, function by function. @param {any} proof */
function evidence(proof) {
  if (!proof) return made("section", { class: "evidence" }, made("h4", {}, "What checks these equations"), made("p", { class: "quiet", role: "status" }, "Comparing them with published values."));
  const shown = proof.functions.slice(0, SHOWN);
  const rest = proof.functions.slice(SHOWN);
  const more = rest.length ? made("details", { class: "checked is-rest" }, made("summary", {}, `${rest.length} more of these functions`), ...rest.map(checkedFunction)) : null;
  const bare = proof.bare.length ? made("p", { class: "place-line" }, `No value to compare yet: ${proof.bare.join(", ")}.`) : null;
  return made("section", { class: "evidence" }, made("h4", {}, "What checks these equations"), made("p", {}, proof.says), ...shown.map(checkedFunction), more, bare);
}

/** @param {any} one */
function checkedFunction(one) {
  const head = made("summary", {}, made("span", { class: "says" }, one.title || one.name), made("span", { class: `place-line${one.agrees ? "" : " is-fails"}` }, one.agrees ? `${one.kinds}; off ${one.off === "by nothing" ? one.off : `by at most ${one.off}`}` : `${one.kinds}; off by ${one.off}: more than it may be`));
  const details = made("details", { class: "checked" }, head);
  // Rows are made when somebody wants them: there may be hundreds.
  details.addEventListener("toggle", () => details.open && !details.querySelector("ol") && details.append(made("p", { class: "place-line" }, made("code", {}, one.name)), made("ol", {}, ...one.rows.map(comparedRow))));
  return details;
}

/** @param {any} row */
function comparedRow(row) {
  return made(
    "li",
    {},
    made("p", { class: "line-sum" }, made("b", {}, row.kind), ` ${row.expected}, computed ${row.computed}, off ${row.off}${row.agrees ? "" : ": DIFFERS"}`),
    made("p", { class: "place-line" }, row.source, row.source.includes(row.provenance) ? "" : ` (${row.provenance})`, row.note ? `. ${row.note}` : ""),
  );
}

/** How the numbers are known, in words. @param {any} finding */
function known(finding) {
  const how = finding.provenance ?? [];
  if (!how.length) return null;
  const text = finding.needs_review ? "Part of this rests on memory or on common practice: have it confirmed." : "";
  return made("p", { class: "known" }, `Known by: ${how.join(", ")}. ${text} Rule: `, made("code", {}, finding.rule), ".");
}
