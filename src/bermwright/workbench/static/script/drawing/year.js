/** @file The year axis: where the ground is frozen, and the week in hand. Open ground at once; reckoned for the house later. */

import { drawn } from "../core/made.js";
import { heading } from "./axes.js";

const MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];
const BASE = 28;
const TALL = 112;

/** @param {any} now @param {{width: number, left: number, right: number, tall: boolean}} box */
export function yearAxis(now, box) {
  const year = now.axes.year;
  const weeks = year.weeks ?? [];
  const long = box.width - box.left - box.right;
  const x = (/** @type {number} */ share) => box.left + share * long;
  const spots = weeks.map((/** @type {any} */ _, /** @type {number} */ at) => x((at + 0.5) / weeks.length));
  const at = weeks.findIndex((/** @type {any} */ one) => one.week === (now.week ?? now.scene?.week));
  const items = [
    box.left > 40 ? heading(BASE + 4, "Year", year.kind === "open" ? "open ground" : "this house") : null,
    drawn("path", { class: "axis-line", d: `M${box.left} ${BASE}H${box.width - box.right}` }),
    ...frozen(year, x),
    ...MONTHS.flatMap((name, month) => monthOf(name, month, x, long)),
    ...(box.tall ? depth(year, spots, at, box) : []),
  ];
  const height = box.tall ? BASE + TALL : BASE + 22;
  return {
    svg: drawn("svg", { width: box.width, height, class: "rule-drawing" }, ...items),
    at,
    spots,
    texts: weeks.map((/** @type {any} */ one) => one.text ?? one.label ?? ""),
    bobAt: at >= 0 ? { x: spots[at], y: BASE - 4 } : null,
  };
}

/** @param {any} year @param {(share: number) => number} x */
function frozen(year, x) {
  return (year.frozen ?? []).map((/** @type {number[]} */ [from, to]) => {
    const strokes = [];
    for (let at = x(from); at <= x(to); at += 4) strokes.push(`M${at.toFixed(1)} ${BASE - 3}v6`);
    return drawn("path", { class: "axis-frozen", d: strokes.join("") }, drawn("title", {}, "frost in the ground"));
  });
}

/** @param {string} name @param {number} month @param {(share: number) => number} x @param {number} long */
function monthOf(name, month, x, long) {
  const shown = long > 420 ? name : name[0];
  return [
    drawn("path", { class: "axis-tick", d: `M${x(month / 12)} ${BASE - 4}v8` }),
    drawn("text", { class: "axis-label", x: x((month + 0.5) / 12), y: BASE + 17, "text-anchor": "middle" }, shown),
  ];
}

/** Air over the line, frost under it, the week in hand in words, and whose ground it is. */
function depth(/** @type {any} */ year, /** @type {number[]} */ spots, /** @type {number} */ at, /** @type {any} */ box) {
  const weeks = year.weeks;
  const top = BASE + 62;
  const airs = weeks.map((/** @type {any} */ one) => one.air ?? 0);
  const swing = Math.max(1, ...airs.map(Math.abs));
  const air = airs.map((/** @type {number} */ one, /** @type {number} */ place) => `${spots[place].toFixed(1)} ${(BASE + 42 - (one / swing) * 14).toFixed(1)}`);
  const text = weeks[at]?.text ?? "Choose a week: its ground is drawn.";
  const named = box.left > 40 ? [label(0, BASE + 46, "air"), label(0, top + 12, "frost")] : [];
  const words = label(spots[0], BASE + TALL - 4, text, "axis-label is-here");
  const says = box.width > 620 ? label(box.width - box.right, BASE + TALL - 4, year.says ?? "", "axis-under", "end") : null;
  return [...named, drawn("path", { class: "axis-limit", d: `M${spots[0]} ${BASE + 42}H${spots.at(-1)}` }), drawn("path", { class: "air", d: `M${air.join("L")}` }), ...frost(weeks, spots, top), words, says];
}

/** @param {number} x @param {number} y @param {string} text @param {string} [look] @param {string} [anchor] */
function label(x, y, text, look = "axis-under", anchor = "start") {
  return drawn("text", { class: look, x, y, "text-anchor": anchor }, text);
}

/** @param {any[]} weeks @param {number[]} spots @param {number} top */
function frost(weeks, spots, top) {
  const depths = weeks.map((one) => one.frost ?? 0);
  const most = Math.max(...depths, 0);
  if (!(most > 0)) return [];
  const points = depths.map((one, place) => `${spots[place].toFixed(1)} ${(top + (one / most) * 26).toFixed(1)}`);
  return [drawn("path", { class: "axis-line", d: `M${spots[0]} ${top}H${spots.at(-1)}` }), drawn("path", { class: "frost", d: `M${spots[0]} ${top}L${points.join("L")}L${spots.at(-1)} ${top}z` })];
}
