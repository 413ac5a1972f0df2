/** @file What would make a finding hold: each change with its cost, made in one move that can be undone. */

import { made, word } from "../core/made.js";

/** @param {any} finding @param {{store: any, wire: any}} ways */
export function remedies(finding, ways) {
  const known = ways.store.now.mends?.[finding.id];
  const fresh = known && known.revision === ways.store.now.revision?.number;
  return made("section", { class: "remedies", id: "remedies" }, ...(fresh ? found(finding, known, ways) : asked(finding, known, ways)));
}

/** @param {any} finding @param {any} known @param {any} ways */
function asked(finding, known, ways) {
  if (!finding.mendable) return [made("p", { class: "quiet" }, "Nobody can compute a change for this one; the advice says what to try.")];
  const job = ways.store.now.job;
  if (job?.what === "mends" && ways.store.now.mending === finding.id) {
    return [
      made("p", { class: "under-way", role: "status" }, job.step || "Looking for the smallest changes.", " ", word("stop", () => ways.wire.send({ say: "stop", job: job.job }))),
      inking(job.share),
    ];
  }
  return [
    word("Show what would hold", () => ask(finding, ways), { class: "button is-first" }),
    known ? made("p", { class: "quiet" }, `What was found is from revision ${known.revision}.`) : null,
  ].filter(Boolean);
}

/** The line that inks in while something is reckoned. @param {number|null|undefined} share */
export function inking(share) {
  const line = made("div", { class: "inking", role: "progressbar", "aria-valuemin": 0, "aria-valuemax": 100 });
  const known = Number.isFinite(share);
  line.append(made("span", {}));
  line.firstChild.style.width = known ? `${Math.round(100 * Number(share))}%` : "12%";
  if (known) line.setAttribute("aria-valuenow", String(Math.round(100 * Number(share))));
  return line;
}

/** Look for what would make a finding hold. @param {any} finding @param {{store: any, wire: any}} ways */
export function ask(finding, ways) {
  ways.store.set({ mending: finding.id, job: { what: "mends", step: "Looking for the smallest changes that would hold.", share: null } });
  ways.wire.send({ say: "mends", finding: finding.id });
}

const WORDS = ["No change", "One change", "Two changes", "Three changes", "Four changes", "Five changes"];

/** @param {any} finding @param {any} known @param {any} ways */
function found(finding, known, ways) {
  const list = known.list ?? [];
  const whole = list.filter((/** @type {any} */ one) => one.works).length;
  const title = whole ? `${WORDS[whole] ?? whole} that would hold` : "Nothing found holds alone";
  return [
    made("h4", {}, title),
    known.says ? made("p", { class: "quiet" }, known.says) : null,
    ...list.map((/** @type {any} */ one, /** @type {number} */ at) => remedy(one, at, finding, ways)),
  ].filter(Boolean);
}

/** @param {any} one @param {number} at @param {any} finding @param {any} ways */
function remedy(one, at, finding, ways) {
  const make = () =>
    ways.wire.send({ say: "remedy", finding: finding.id, number: one.number, base: ways.store.now.revision?.number, label: one.text });
  const cost = [one.money, one.hours, one.lifted].filter(Boolean).join("   ");
  return made(
    "div",
    { class: "remedy" },
    made("p", { class: "remedy-head" }, made("span", { class: "number" }, String(at + 1)), made("b", {}, one.text), made("span", { class: "ratio" }, `${one.before} → ${one.after}`)),
    one.why ? made("p", { class: "remedy-why" }, one.why) : null,
    made(
      "div",
      { class: "remedy-foot" },
      made("span", { class: "cost" }, cost || "cost not known: the file gives no prices"),
      ways.store.now.readonly ? null : word("Make this change", make, { class: at === 0 ? "button is-first" : "button" }),
    ),
  );
}
