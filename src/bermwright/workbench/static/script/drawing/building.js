/** @file The building axis: true little sections over bars of the strength used, the limit at 1.00, the worst named. */

import { drawn } from "../core/made.js";
import { against, heading, isStale } from "./axes.js";
import { metresOf } from "./values.js";

/** Where things lie, from the top (px). */
const BOB = 24;
const MINI = 30;
/** Columns narrower than this carry a number alone: the stepper names the stage. */
const NARROW = 40;
const BARS = 66;
const ROOM = 12;
/** Bars above this are broken: the word beside says how much. */
const MOST = 1.9;

/**
 * @param {any} now
 * @param {{width: number, left: number, right: number, tall: boolean}} box
 */
export function buildingAxis(now, box) {
  const stages = stagesOf(now);
  const pitch = (box.width - box.left - box.right) / Math.max(1, stages.length);
  const spots = stages.map((/** @type {any} */ _, /** @type {number} */ at) => box.left + pitch * (at + 0.5));
  const at = stages.findIndex((/** @type {any} */ one) => one.stage === now.scene?.stage);
  const draw = box.tall ? tall : thin;
  const { items, height, bobY } = draw(stages, { ...box, pitch, spots, at, running: now.running, shape: shapeOf(now.handles?.list ?? []) });
  const svg = drawn("svg", { width: box.width, height, class: "rule-drawing" }, ...items, worstHead(now, box));
  return {
    svg,
    at,
    spots,
    texts: stages.map(spokenStage),
    bobAt: at >= 0 ? { x: spots[at], y: bobY } : null,
  };
}

/** The stages with what a full run found; before there is one, the bare names. @param {any} now */
export function stagesOf(now) {
  const found = now.axes?.building ?? [];
  const same = found.length && now.axes.vault === now.scene?.vault;
  if (same) return now.held || now.scene?.seq ? found.map((/** @type {any} */ one) => live(one, now.scene)) : found;
  return (now.scene?.stages ?? []).map((/** @type {any} */ one) => ({ ...one, stage: one.name, ratio: null, verdict: "unknown" }));
}

/** A stage by its name; its level in feet where those are shown. @param {any} one */
export function nameOf(one) {
  const feet = / (?:ft|in)\b/.test(one.left ?? "");
  return feet ? one.stage.replace(/[+−±-][\d.]+$/, one.left) : one.stage;
}

/** The shown stage as the hand has it now. @param {any} one @param {any} scene */
function live(one, scene) {
  if (one.stage !== scene.stage || !scene.seq || scene.ratio === undefined) return one;
  return { ...one, ratio: scene.ratio, ratio_text: scene.ratio_text, verdict: scene.sentence?.verdict ?? one.verdict };
}

/** Rise, span and cover in metres, read off the handles. @param {any[]} list */
function shapeOf(list) {
  const by = Object.fromEntries(list.map((one) => [one.name, one]));
  const { crown, "left foot": left, "right foot": right, "crown cover": cover } = by;
  if (!crown || !left || !right) return undefined;
  return {
    rise: crown.z - left.z,
    span: right.x - left.x,
    springing: left.z,
    cover: cover ? Math.max(0.1, cover.z - crown.z) : 0.4,
  };
}

/** A level such as "+1.20" or "+3 ft 11 in" in metres. @param {any} text */
function level(text) {
  const plain = String(text ?? "").replace("−", "-").replace("±", "");
  return /\b(?:ft|in)\b/.test(plain) ? metresOf(plain) : Number.parseFloat(plain);
}

/** @param {any[]} stages @param {any} box */
function tall(stages, box) {
  const mini_ = box.pitch < NARROW ? 0 : MINI;
  const base = BOB + mini_ + BARS + ROOM;
  const limit = base - BARS / MOST;
  const label = base + 16;
  const words = wordsOf(stages, box);
  const items = [
    ...inked(box, base),
    drawn("path", { class: "axis-limit", d: `M${box.left} ${limit}H${box.width}` }),
    box.left > 40 ? drawn("text", { class: "axis-figure", x: box.left - 6, y: limit + 4, "text-anchor": "end" }, "1.00") : null,
    box.left > 40 ? drawn("text", { class: "axis-under", x: 0, y: base - 8 }, "strength") : null,
    box.left > 40 ? drawn("text", { class: "axis-under", x: 0, y: base + 5 }, "used") : null,
    ...stages.flatMap((stage, at) => column(stage, box.spots[at], { ...box, base, limit, label, words: words[at], here: at === box.at })),
  ];
  const height = box.pitch < NARROW ? label + 6 : label + 34;
  if (box.at >= 0) items.push(frame(box, height));
  return { items, height, bobY: BOB - 2 };
}

/** The line of the axis; while a full run is under way it inks in. @param {any} box @param {number} base */
function inked(box, base) {
  const line = (/** @type {string} */ look, /** @type {number} */ share) =>
    drawn("path", { class: look, d: `M${box.left} ${base}H${box.left + (box.width - box.left) * share}` });
  const share = box.running?.share;
  return share === undefined || share === null ? [line("axis-line", 1)] : [line("axis-line is-open", 1), line("axis-line is-inked", share)];
}

/** @param {any} box @param {number} height */
function frame(box, height) {
  const half = Math.min(box.pitch / 2, 46) - 1;
  const x = box.spots[box.at] - half;
  return drawn("rect", { class: "axis-now", x, y: BOB, width: 2 * half, height: height - BOB - 1 });
}

/** @param {any} stage @param {number} x @param {any} box */
function column(stage, x, box) {
  const scale = BARS / MOST;
  const ratio = Number.isFinite(stage.ratio) ? Math.min(stage.ratio, MOST) : null;
  const wide = Math.min(9, box.pitch * 0.24);
  const items = box.pitch < NARROW ? [] : [mini(stage, x, BOB + MINI, box)];
  if (stage.stop?.length && box.pitch >= NARROW) items.push(flag(stage, x, BOB + MINI, box));
  if (ratio === null) {
    items.push(drawn("circle", { class: "axis-unknown", cx: x, cy: box.base - 8, r: 4 }));
  } else {
    const whole = Math.min(ratio, 1) * scale;
    items.push(drawn("rect", { class: "bar", x: x - wide / 2, y: box.base - whole, width: wide, height: whole }));
    if (ratio > 1) items.push(...over(x, wide, box, ratio, stage.ratio > MOST));
  }
  return [...items, ...labels(stage, x, box)];
}

/** The red bar with its flag: this stage has a level that one side may not pass. */
function flag(/** @type {any} */ stage, /** @type {number} */ x, /** @type {number} */ ground, /** @type {any} */ box) {
  const left = x - Math.min(box.pitch * 0.44, 34);
  const mark = drawn("path", { class: `axis-stop${against(stage.verdict)}`, d: `M${left} ${ground - 12}h11M${left} ${ground - 15.5}v7l5-3.5z` });
  mark.append(drawn("title", {}, `stop: ${stage.stop.join(", ")}`));
  return mark;
}

/** The part above 1.00, hatched in red pencil. */
function over(/** @type {number} */ x, /** @type {number} */ wide, /** @type {any} */ box, /** @type {number} */ ratio, /** @type {boolean} */ broken) {
  const top = box.base - (BARS / MOST) * ratio;
  const tall_ = box.limit - top;
  const left = x - wide / 2;
  const hatch = [];
  for (let y = box.limit; y > top + 2; y -= 5) hatch.push(`M${left} ${y}l${wide} ${-Math.min(5, y - top)}`);
  return [
    drawn("rect", { class: "bar-over", x: left, y: top, width: wide, height: tall_ }),
    drawn("path", { class: "bar-hatch", d: hatch.join("") }),
    broken ? drawn("path", { class: "bar-break", d: `M${left - 3} ${top + 7}l${wide / 2 + 3}-4 0 3 ${wide / 2 + 3}-4` }) : null,
  ].filter(Boolean);
}

/** @param {any} stage @param {number} x @param {any} box */
function labels(stage, x, box) {
  const look = `axis-label${box.here ? " is-here" : ""}${against(stage.verdict)}`;
  const lines = box.words.map((/** @type {string} */ text, /** @type {number} */ line) =>
    drawn("text", { class: look.replace(" is-fails", ""), x, y: box.label + 14 * line, "text-anchor": "middle" }, text),
  );
  const under = box.label + 28;
  const figure = stage.ratio_text ?? "";
  if (box.pitch < NARROW) return lines;
  const said = stage.verdict === "fails" && box.pitch > 70 ? `${figure} fails` : figure || short(stage.verdict);
  return [...lines, drawn("text", { class: look, x, y: under, "text-anchor": "middle" }, said)];
}

/** @param {string} verdict */
function short(verdict) {
  return { unknown: "?", fails: "fails", "does not apply": "" }[verdict] ?? "";
}

/**
 * Names that fit: two short lines, or none where the columns are too narrow for them.
 * @param {any[]} stages @param {any} box
 */
function wordsOf(stages, box) {
  const letters = Math.floor(box.pitch / 6.1);
  const narrow = box.pitch < NARROW;
  return stages.map((stage, at) => {
    if (narrow) return [String(at + 1), ""];
    const lines = twoLines(nameOf(stage));
    if (lines.every((line) => line.length <= letters)) return lines.length === 1 ? [lines[0], ""] : lines;
    return [String(at + 1), ""];
  });
}

/** @param {string} name */
function twoLines(name) {
  const parts = /^(.*?)(?: to)? ([+\-−±].*)$/.exec(name);
  if (parts) return [parts[1], parts[2]];
  const cut = name.indexOf(" ");
  return cut > 0 ? [name.slice(0, cut), name.slice(cut + 1)] : [name];
}

/** A true little section of the stage: shell, fill on both sides, ground. */
function mini(/** @type {any} */ stage, /** @type {number} */ x, /** @type {number} */ ground, /** @type {any} */ box) {
  const shape = box.shape ?? { rise: 2.4, span: 4.8, springing: 0, cover: 0.4 };
  const wide = Math.min(box.pitch * 0.92, 74);
  const scale = Math.min(wide / (shape.span * 2.6), 22 / (shape.springing + shape.rise + (shape.cover ?? 0.4)));
  const half = (shape.span / 2) * scale;
  const foot = ground - Math.max(0, shape.springing) * scale;
  const crown = foot - shape.rise * scale;
  const items = earth(stage, { x, ground, half, crown, scale, wide, cover: (shape.cover ?? 0.4) * scale });
  const built = stage.kind !== "dig" && stage.kind !== "walls";
  const arch = `M${x - half} ${ground}V${foot}C${x - half} ${foot - (foot - crown) * 0.72} ${x - half * 0.62} ${crown} ${x} ${crown}S${x + half} ${foot - (foot - crown) * 0.72} ${x + half} ${foot}V${ground}`;
  items.push(drawn("path", { class: `mini-ground`, d: `M${x - wide / 2} ${ground}H${x + wide / 2}` }));
  items.push(drawn("path", { class: `mini-arch${built ? "" : " is-not-yet"}${stage.kind === "ribs up" ? " is-bare" : ""}`, d: arch }));
  return drawn("g", { class: "mini" }, ...items);
}

/** @param {any} stage @param {any} at */
function earth(stage, at) {
  const finished = ["crown cover", "turf", "settled", "long term", "cover", "finished"].some((kind) => String(stage.kind).includes(kind));
  const top = at.crown - at.cover;
  const slope = 1.9;
  if (finished) {
    const out = Math.min(at.wide / 2, (at.ground - top) * slope + at.half * 0.4);
    return [drawn("path", { class: "mini-earth", d: `M${at.x - out} ${at.ground}L${at.x - at.half * 0.3} ${top}H${at.x + at.half * 0.3}L${at.x + out} ${at.ground}z` })];
  }
  return [-1, 1].flatMap((side) => {
    const height = level(side < 0 ? stage.left : stage.right);
    if (!(height > 0)) return [];
    const tall_ = Math.min(height * at.scale, at.ground - top);
    const out = Math.min(at.wide / 2, at.half * 0.4 + (at.ground - top) * slope);
    const shoulder = Math.max(at.half * 0.2, out - tall_ * slope * 0.9);
    return [drawn("path", { class: "mini-earth", d: `M${at.x + side * out} ${at.ground}L${at.x + side * shoulder} ${at.ground - tall_}H${at.x}V${at.ground}z` })];
  });
}

/** @param {any[]} stages @param {any} box */
function thin(stages, box) {
  const base = BOB + 6;
  const words = wordsOf(stages, box);
  const items = [drawn("path", { class: "axis-line", d: `M${box.left} ${base}H${box.width}` })];
  stages.forEach((stage, at) => {
    const x = box.spots[at];
    items.push(drawn("path", { class: `axis-tick${against(stage.verdict)}`, d: `M${x} ${base - 5}v10` }));
    const look = `axis-label${at === box.at ? " is-here" : ""}${against(stage.verdict)}`;
    words[at].forEach((text, line) => {
      if (text) items.push(drawn("text", { class: look, x, y: base + 18 + 13 * line, "text-anchor": "middle" }, text));
    });
  });
  return { items, height: base + 36, bobY: base - 4 };
}

/** @param {any} now @param {any} box */
function worstHead(now, box) {
  if (box.left < 40) return null;
  if (isStale(now) && box.tall) {
    return drawn("g", {}, heading(BOB + MINI - 10, "Building"), ...["from", `revision ${now.axes.revision}`].map((text, line) => drawn("text", { class: "axis-under", x: 0, y: BOB + MINI + 8 + 13 * line }, text)));
  }
  const worst = stagesOf(now).find((/** @type {any} */ one) => one.worst);
  const lines = worst ? twoLines(nameOf(worst)) : [];
  return drawn(
    "g",
    {},
    heading(box.tall ? BOB + MINI - 10 : BOB + 10, "Building"),
    worst && box.tall ? drawn("text", { class: "axis-under", x: 0, y: BOB + MINI + 8 }, "worst:") : null,
    ...(box.tall ? lines : []).map((text, line) =>
      drawn("text", { class: "axis-under is-strong", x: 0, y: BOB + MINI + 22 + 13 * line }, text),
    ),
  );
}

/** @param {any} stage @param {number} at */
function spokenStage(stage, at) {
  const said = stage.ratio_text ? `${stage.ratio_text} of the strength, ` : "";
  return `${at + 1}. ${nameOf(stage)}: ${said}${stage.verdict}`;
}
