/** @file Questions: what is not known, why it matters, and the cheapest way to learn it. */

import { made, word } from "../core/made.js";
import { sign } from "../core/signs.js";

/**
 * @param {HTMLElement} leaf
 * @param {{store: any, answer: (key: string) => void}} ways
 */
export function drawQuestions(leaf, ways) {
  const list = ways.store.now.found?.questions ?? [];
  leaf.replaceChildren(
    made("p", { class: "quiet lead" }, list.length ? "Not known yet. What depends on it stays unknown." : "Nothing is asked."),
    made("ol", { class: "questions" }, ...list.map((/** @type {any} */ one) => question(one, ways))),
  );
}

/** @param {any} one @param {any} ways */
function question(one, ways) {
  const blocks = one.blocks ?? [];
  return made(
    "li",
    { class: "question" },
    made("span", { class: "sign" }, sign("unknown")),
    made("p", { class: "asks" }, one.text),
    one.why ? made("p", { class: "asks-why" }, one.why) : null,
    made("p", { class: "asks-how" }, made("b", {}, "To learn it: "), one.how),
    made(
      "p",
      { class: "place-line" },
      made("code", {}, one.place),
      blocks.length ? ` · ${blocks.length} check${blocks.length > 1 ? "s wait" : " waits"}: ${blocks.map(plain).join(", ")}` : "",
    ),
    ways.store.now.readonly ? null : word("write it in", () => ways.answer(one.key || one.place), { class: "word is-small" }),
  );
}

/** A rule's name in plain words. @param {string} name */
function plain(name) {
  return name.replaceAll("-", " ");
}
