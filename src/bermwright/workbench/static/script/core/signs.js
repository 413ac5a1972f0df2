/** @file The four verdict signs (small arches), the words beside them, and the plumb bob. */

import { drawn, made } from "./made.js";

/** @typedef {"holds"|"tight"|"fails"|"unknown"|"does not apply"} Verdict */

/** Worst first. @type {Verdict[]} */
export const WORST_FIRST = ["fails", "unknown", "tight", "holds", "does not apply"];

const ARCH = "M5 19v-6a7 7 0 0 1 14 0v6";
const GROUND = "M1.5 19h21";

/** Strokes of each sign, in a box of 24. @type {Record<string, string[]>} */
const STROKES = {
  holds: [ARCH, GROUND],
  tight: [ARCH, GROUND, "M3 2.5h18"],
  // One side has dropped: the left half stands, the right half lies lower.
  fails: ["M5 19v-6a7 7 0 0 1 6.5-7", "M12.5 10.5a6.5 6.5 0 0 1 6 8.5", GROUND],
  unknown: [ARCH],
  "does not apply": [GROUND],
};

/**
 * The sign of a verdict. It never stands alone: the word is beside it.
 * @param {string} verdict
 * @param {number} [size]
 */
export function sign(verdict, size = 20) {
  const strokes = STROKES[verdict] ?? STROKES.unknown;
  return drawn(
    "svg",
    { class: `arch arch-${slug(verdict)}`, viewBox: "0 0 24 24", width: size, height: size, "aria-hidden": "true" },
    ...strokes.map((path) => drawn("path", { d: path })),
  );
}

/** The word of a verdict in capitals, as lettering. @param {string} verdict */
export function verdictWord(verdict) {
  return made("span", { class: `verdict-word is-${slug(verdict)}` }, verdict.toUpperCase());
}

/** @param {string} verdict */
export function slug(verdict) {
  return String(verdict).replaceAll(" ", "-");
}

/** How bad a verdict is: 0 is the worst. @param {string} verdict */
export function severity(verdict) {
  const at = WORST_FIRST.indexOf(/** @type {Verdict} */ (verdict));
  return at < 0 ? 1 : at;
}

/** The plumb bob that hangs at "now"; its tip points down at (0, 0). */
export function bob() {
  return drawn(
    "g",
    { class: "bob" },
    drawn("circle", { cx: 0, cy: -21, r: 3.2, class: "bob-ring" }),
    drawn("path", { d: "M0-17.5V-14", class: "bob-line" }),
    drawn("path", { d: "M-5-10.5-3.4-14h6.8L5-10.5 0 0z", class: "bob-body" }),
  );
}
