/** @file The year axis: where the ground is frozen, and the week in hand; hidden until heat has been reckoned. */

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
  const at = Math.max(0, weeks.findIndex((/** @type {any} */ one) => one.week === now.week));
  const items = [
    box.left > 40 ? heading(BASE + 4, "Year", "barred: frost") : null,
    drawn("path", { class: "axis-line", d: `M${box.left} ${BASE}H${box.width - box.right}` }),
    ...frozen(year, x),
    ...MONTHS.flatMap((name, month) => monthOf(name, month, x, long)),
    ...(box.tall ? depth(weeks, spots, at) : []),
  ];
  const height = box.tall ? BASE + TALL : BASE + 26;
  return {
    svg: drawn("svg", { width: box.width, height, class: "rule-drawing" }, ...items),
    at,
    spots,
    texts: weeks.map((/** @type {any} */ one) => one.text ?? one.label ?? ""),
    bobAt: weeks.length ? { x: spots[at], y: BASE - 4 } : null,
  };
}

/** @param {any} year @param {(share: number) => number} x */
function frozen(year, x) {
  return (year.frozen ?? []).map((/** @type {number[]} */ [from, to]) => {
    const strokes = [];
    for (let at = x(from); at <= x(to); at += 4) strokes.push(`M${at.toFixed(1)} ${BASE - 3}v6`);
    return drawn("path", { class: "axis-frozen", d: strokes.join("") });
  });
}

/** @param {string} name @param {number} month @param {(share: number) => number} x @param {number} long */
function monthOf(name, month, x, long) {
  const shown = long > 420 ? name : name[0];
  return [
    drawn("path", { class: "axis-tick", d: `M${x(month / 12)} ${BASE - 4}v8` }),
    drawn("text", { class: "axis-label", x: x((month + 0.5) / 12), y: BASE + 19, "text-anchor": "middle" }, shown),
  ];
}

/** Air over the line, frost under it, and the week in hand in words. */
function depth(/** @type {any[]} */ weeks, /** @type {number[]} */ spots, /** @type {number} */ at) {
  const top = BASE + 62;
  const airs = weeks.map((one) => one.air ?? 0);
  const swing = Math.max(1, ...airs.map(Math.abs));
  const air = airs.map((one, place) => `${spots[place].toFixed(1)} ${(BASE + 44 - (one / swing) * 14).toFixed(1)}`);
  const words = drawn("text", { class: "axis-label is-here", x: spots[0], y: BASE + TALL - 6 }, weeks[at]?.text ?? "");
  return [drawn("path", { class: "axis-limit", d: `M${spots[0]} ${BASE + 44}H${spots.at(-1)}` }), drawn("path", { class: "air", d: `M${air.join("L")}` }), ...frost(weeks, spots, top), words];
}

/** @param {any[]} weeks @param {number[]} spots @param {number} top */
function frost(weeks, spots, top) {
  const depths = weeks.map((one) => one.frost ?? 0);
  const most = Math.max(...depths, 0);
  if (!(most > 0)) return [];
  const points = depths.map((one, place) => `${spots[place].toFixed(1)} ${(top + (one / most) * 26).toFixed(1)}`);
  return [drawn("path", { class: "axis-line", d: `M${spots[0]} ${top}H${spots.at(-1)}` }), drawn("path", { class: "frost", d: `M${spots[0]} ${top}L${points.join("L")}L${spots.at(-1)} ${top}z` })];
}
