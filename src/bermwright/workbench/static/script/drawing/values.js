/**
 * @file The arithmetic of a hand: which place of the section a key or a pointer means. The server makes the value
 * of it, snapped and written; only where the line is down is a plain value written here.
 */

/** @typedef {import("../core/protocol.js").Handle} Handle */
/** @typedef {{x: number, z: number}} Place */

const UNITS = { m: 1, cm: 0.01, mm: 0.001, ft: 0.3048, in: 0.0254 };
/** A slope is never stepped below this (metres along to one up). */
const STEEPEST = 0.05;

/** A length as a builder writes it, in metres; NaN where it is none. @param {string} text */
export function metresOf(text) {
  const plain = String(text ?? "").replace("−", "-").replace("±", "").trim();
  const pieces = [...plain.matchAll(/([+-]?\d+(?:\.\d+)?)(?:[ -](\d+)\/(\d+)|\/(\d+))?\s*(mm|cm|m|ft|in)\b/g)];
  if (!pieces.length) return Number.NaN;
  const sum = pieces.reduce((total, piece) => total + figure(piece) * UNITS[/** @type {"m"} */ (piece[5])], 0);
  return plain.startsWith("-") ? -sum : sum;
}

/** The figure without its sign. @param {RegExpMatchArray} piece */
function figure(piece) {
  const whole = Math.abs(Number(piece[1]));
  return piece[4] ? whole / Number(piece[4]) : piece[2] ? whole + Number(piece[2]) / Number(piece[3]) : whole;
}

/** Metres along to one up, of `1:2.5` or of an angle; NaN where it is no slope. @param {string} text */
export function slopeOf(text) {
  const ratio = /1\s*:\s*(\d+(?:\.\d+)?)/.exec(text ?? "");
  if (ratio) return Number(ratio[1]);
  const angle = /(\d+(?:\.\d+)?)\s*(?:deg|°)/.exec(text ?? "");
  return angle ? 1 / Math.tan((Number(angle[1]) * Math.PI) / 180) : Number.NaN;
}

/** Whether the value is a slope and not a length. @param {Handle} handle */
export function isSlope(handle) {
  return handle.per === 0;
}

/** The direction in which the value grows. @param {Handle} handle @returns {[number, number]} */
export function alongOf(handle) {
  if (handle.along?.length === 2) return /** @type {[number, number]} */ (handle.along);
  return handle.free === "up" ? [0, 1] : [1, 0];
}

/** A place that the pointer dragged to, kept to the free direction. @param {Handle} handle @param {Place} moved */
export function dragged(handle, moved) {
  const [across, up] = alongOf(handle);
  const far = moved.x * across + moved.z * up;
  return { x: handle.x + far * across, z: handle.z + far * up };
}

/**
 * How many steps a key means, and of which size.
 * @param {{key: string, shiftKey: boolean}} press
 * @returns {{count: number, size: "snap"|"fine"|"page"}|null}
 */
export function keyStep(press) {
  const size = press.shiftKey ? "fine" : "snap";
  switch (press.key) {
    case "ArrowUp":
    case "ArrowRight":
      return { count: 1, size };
    case "ArrowDown":
    case "ArrowLeft":
      return { count: -1, size };
    case "PageUp":
      return { count: 1, size: "page" };
    case "PageDown":
      return { count: -1, size: "page" };
    default:
      return null;
  }
}

/** A key moves the handle the way its arrow points, also where the value grows the other way.
 * @param {Handle} handle @param {string} key */
export function turn(handle, key) {
  if (!key.startsWith("Arrow")) return 1;
  const [across, up] = alongOf(handle);
  const sideways = key === "ArrowLeft" || key === "ArrowRight";
  const main = sideways ? across : up;
  return (Math.abs(main) > 0.3 ? main : across + up) < 0 ? -1 : 1;
}

/** Metres that a step moves the handle. @param {Handle} handle @param {string} step */
export function reach(handle, step) {
  return metresOf(step) / Math.abs(handle.per || 1);
}

/** The slope after some steps, as it is written. @param {Handle} handle @param {number} from @param {number} change */
export function steppedSlope(handle, from, change) {
  const along = Math.max(STEEPEST, from + change);
  return `1:${Number(along.toFixed(3))}`;
}

/** A value written here, where nobody else can. @param {Handle} handle @param {Place} place @param {boolean} fine */
export function localValue(handle, place, fine) {
  if (isSlope(handle)) return null;
  const [across, up] = alongOf(handle);
  const far = (place.x - handle.x) * across + (place.z - handle.z) * up;
  const now = metresOf(handle.value);
  const step = metresOf(fine ? handle.fine : handle.snap);
  if (!Number.isFinite(now) || !(step > 0)) return null;
  const value = Math.round((now + far * handle.per) / step) * step;
  return `${Number(value.toFixed(4))} m`;
}
