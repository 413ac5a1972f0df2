/** @file Handles over the section: drawn 14 px, held at 44 px, by pointer, keys and typed values. */

import { drawn } from "../core/made.js";
import { alongOf, dragged, isSlope, keyStep, metresOf, turn } from "./values.js";

/** @typedef {import("../core/protocol.js").Handle} Handle */

/** A press that moved less than this is a tap (px). */
const TAP = 4;

/** Two handles at one place become one that moves both ways. @param {Handle[]} list @returns {Handle[]} */
export function joined(list) {
  /** @type {Handle[]} */
  const marks = [];
  for (const handle of list) {
    const same = marks.find((one) => Math.hypot(one.x - handle.x, one.z - handle.z) < 1e-6 && !one.also);
    if (same) Object.assign(same, { also: handle });
    else marks.push({ ...handle });
  }
  return marks;
}

export class Handles {
  /**
   * @param {import("./board.js").Board} board
   * @param {import("./hand.js").Hand} hand
   * @param {import("./typed.js").Typed} typed
   */
  constructor(board, hand, typed) {
    this.board = board;
    this.hand = hand;
    this.typed = typed;
    this.layer = drawn("g", { class: "handles" });
    this.wordsLayer = drawn("g", { class: "handle-words" });
    board.over.append(this.layer, this.wordsLayer);
    this.layer.addEventListener("pointermove", (event) => this.point(event));
    this.layer.addEventListener("pointerleave", () => this.point(null));
    this.layer.addEventListener("pointerdown", (event) => this.press(event));
    this.layer.addEventListener("dblclick", (event) => this.typeAt(event));
    /** @type {Handle[]} */
    this.list = [];
    /** @type {Map<string, any>} */
    this.drawn = new Map();
    /** Values shown beside handles, over all of them. @type {Map<string, any>} */
    this.texts = new Map();
  }

  /** @param {Handle[]} list */
  show(list) {
    this.newest = list;
    if (this.pressing || (this.hand.held && !this.hand.ending)) return;
    const focused = document.activeElement?.getAttribute("data-handle");
    this.shownList = list;
    this.list = joined(list);
    this.drawn.clear();
    this.texts.clear();
    this.wordsLayer.replaceChildren();
    this.layer.replaceChildren(...this.list.map((handle) => this.one(handle)));
    this.place();
    if (focused) this.drawn.get(focused)?.focus({ preventScroll: true });
  }

  /** Where the handles stand in a provisional drawing. @param {any[]} places */
  follow(places) {
    const by = new Map((places ?? []).map((one) => [one.name, one]));
    for (const handle of this.list) {
      const now = by.get(handle.name);
      if (now) Object.assign(this.shownAt(handle), { x: now.x, z: now.z });
    }
    this.place();
  }

  /** The place where a handle is drawn; apart from where it was taken. @param {any} handle */
  shownAt(handle) {
    handle.shown ??= { x: handle.x, z: handle.z };
    return handle.shown;
  }

  /** @param {Handle} handle */
  one(handle) {
    const fixed = Boolean(handle.fixed);
    const mark = drawn(
      "g",
      {
        class: `handle is-${handle.also ? "both" : handle.free}${fixed ? " is-fixed" : ""}`,
        data: { handle: handle.name },
        tabindex: 0,
        role: "slider",
        "aria-label": spoken(handle),
        "aria-valuemin": numeral(handle, handle.low),
        "aria-valuemax": numeral(handle, handle.high),
        "aria-valuenow": numeral(handle, handle.value) ?? 0,
        "aria-valuetext": handle.text,
        "aria-readonly": fixed,
        on: fixed ? {} : this.acts(handle),
      },
      drawn("circle", { class: "handle-reach", r: 22 }),
      drawn("path", { class: "whiskers", d: whiskers(handle) }),
      drawn("circle", { class: "handle-focus", r: 12.5 }),
      drawn("circle", { class: "handle-ring", r: 7 }),
      fixed
        ? drawn("path", { class: "handle-cross", d: "M-4-4 4 4M4-4-4 4" })
        : drawn("circle", { class: "handle-dot", r: 2 }),
    );
    this.drawn.set(handle.name, mark);
    return mark;
  }

  /** @param {Handle} handle */
  acts(handle) {
    return {
      keydown: (/** @type {KeyboardEvent} */ event) => this.key(handle, event),
      focus: () => this.words(handle),
      blur: () => this.left(handle),
    };
  }

  /** The handle nearest to the pointer: reaches overlap where handles stand close. @param {MouseEvent} event */
  nearest(event) {
    const box = this.board.over.getBoundingClientRect();
    const far = (/** @type {any} */ handle) => {
      const { x, y } = this.board.pixels(handle.shown ?? handle);
      return Math.hypot(event.clientX - box.left - x, event.clientY - box.top - y);
    };
    return [...this.list].sort((a, b) => far(a) - far(b))[0];
  }

  /** The handle that is pointed at shows its value. @param {MouseEvent|null} event */
  point(event) {
    const near = event ? this.nearest(event) : undefined;
    if (near === this.near) return;
    const before = this.near;
    this.near = near;
    for (const handle of [before, near]) {
      if (!handle) continue;
      this.drawn.get(handle.name)?.classList.toggle("is-near", handle === near);
      this.words(handle);
    }
  }

  /** @param {MouseEvent} event */
  typeAt(event) {
    const handle = this.nearest(event);
    if (handle && !handle.fixed) this.type(handle);
  }

  /** @param {PointerEvent} event */
  press(event) {
    const handle = this.nearest(event);
    if (event.button !== 0 || !handle || handle.fixed) return;
    event.preventDefault();
    const mark = this.drawn.get(handle.name);
    mark.focus({ preventScroll: true });
    mark.setPointerCapture(event.pointerId);
    // A drawing that comes now must not take the mark from under the hand.
    this.pressing = true;
    const from = { x: event.clientX, y: event.clientY, taken: /** @type {Handle|null} */ (null) };
    const move = (/** @type {PointerEvent} */ now) => this.dragged(handle, from, now);
    const end = (/** @type {PointerEvent} */ now) => {
      mark.removeEventListener("pointermove", move);
      mark.removeEventListener("pointerup", end);
      mark.removeEventListener("pointercancel", end);
      this.pressing = false;
      if (now.type === "pointercancel") this.hand.giveUp();
      else if (from.taken) this.hand.letGo();
      else if (this.newest !== this.shownList) this.show(/** @type {Handle[]} */ (this.newest));
    };
    mark.addEventListener("pointermove", move);
    mark.addEventListener("pointerup", end);
    mark.addEventListener("pointercancel", end);
  }

  /** @param {Handle} handle @param {{x: number, y: number, taken: Handle|null}} from @param {PointerEvent} now */
  dragged(handle, from, now) {
    const right = now.clientX - from.x;
    const down = now.clientY - from.y;
    if (!from.taken) {
      if (Math.hypot(right, down) < TAP) return;
      from.taken = meant(handle, right, down);
      this.hand.take(handle, from.taken);
    }
    if (this.hand.held?.moved !== from.taken) return; // given up by Escape
    const metres = { x: right / this.board.metre, z: -down / this.board.metre };
    this.hand.move(dragged(from.taken, metres), now.shiftKey);
  }

  /** @param {Handle} handle @param {KeyboardEvent} event */
  key(handle, event) {
    const step = keyStep(event);
    if (event.key === "Enter") {
      this.type(handle);
    } else if (event.key === "Escape") {
      this.hand.giveUp();
    } else if (step) {
      const moved = keyed(handle, event.key);
      this.hand.take(handle, moved);
      this.hand.nudge(step.count * turn(moved, event.key), step.size);
    } else {
      return;
    }
    event.preventDefault();
  }

  /** @param {Handle} handle */
  type(handle) {
    const moved = this.hand.held?.handle === handle ? this.hand.held.moved : handle;
    this.hand.letGo();
    this.typed.open(handle, moved);
  }

  /** Focus went elsewhere: what was held is done. @param {Handle} handle */
  left(handle) {
    if (this.hand.held?.handle.name === handle.name) this.hand.letGo();
    this.words(handle);
  }

  /** Put every handle where its value stands. */
  place() {
    if (!this.board.view) return;
    for (const handle of this.list) this.placeOne(handle);
  }

  /** @param {any} handle */
  placeOne(handle) {
    const mark = this.drawn.get(handle.name);
    if (!mark) return;
    const held = this.holding(handle);
    const { x, y } = this.board.pixels(handle.shown ?? handle);
    mark.setAttribute("transform", `translate(${x.toFixed(1)} ${y.toFixed(1)})`);
    mark.classList.toggle("is-held", Boolean(held));
    if (held?.text) mark.setAttribute("aria-valuetext", held.text);
    this.words(handle);
  }

  /** @param {Handle} handle */
  holding(handle) {
    return this.hand.held?.handle.name === handle.name ? this.hand.held : null;
  }

  /** The value beside the handle: while it is held, pointed at or focused. @param {any} handle */
  words(handle) {
    const mark = this.drawn.get(handle.name);
    if (!mark) return;
    const held = this.holding(handle);
    this.texts.get(handle.name)?.remove();
    if (!held && !mark.matches(".is-near, :focus-visible")) return;
    const { x } = this.board.pixels(handle.shown ?? handle);
    const turned = x > (this.board.view?.width ?? 0) * this.board.factor - 250;
    const traits = { x: turned ? -18 : 18, y: -14, "text-anchor": turned ? "end" : "start" };
    const words = held ? heldWords(held, traits) : [restWords(handle, traits)];
    const text = drawn("g", { transform: mark.getAttribute("transform") }, ...words);
    this.texts.set(handle.name, text);
    this.wordsLayer.append(text);
  }
}

/** @param {import("./hand.js").Held} held @param {any} traits */
function heldWords(held, traits) {
  const now = held.text ?? held.write ?? held.moved.text;
  const value = drawn(
    "text",
    { ...traits, class: "held-value" },
    drawn("tspan", { class: "held-now" }, now),
    drawn("tspan", { class: "held-was", dx: 8 }, `was ${held.moved.text}`),
  );
  return [value, held.says ? drawn("text", { ...traits, y: traits.y + 34, class: "held-says" }, held.says) : null].filter(Boolean);
}

/** @param {Handle} handle @param {any} traits */
function restWords(handle, traits) {
  const also = handle.also ? `, ${handle.also.label} ${handle.also.text}` : "";
  const why = typeof handle.fixed === "string" ? `, ${handle.fixed}` : "";
  return drawn("text", { ...traits, class: "rest-value" }, `${handle.label} ${handle.text}${also}${why}`);
}

/** @param {Handle} handle @param {string} text */
function numeral(handle, text) {
  const value = isSlope(handle) ? Number.NaN : metresOf(text);
  return Number.isFinite(value) ? value : null;
}

/** @param {Handle} handle */
function spoken(handle) {
  const also = handle.also ? `, and ${handle.also.label}` : "";
  return handle.fixed ? `${handle.label}, fixed` : `${handle.label}${also}: arrow keys move it, Enter to type a value`;
}

/** Strokes that show the free directions. @param {Handle} handle */
function whiskers(handle) {
  const lines = [handle, handle.also].filter(Boolean).map((one) => {
    const [across, up] = alongOf(/** @type {Handle} */ (one));
    const near = `${(7 * across).toFixed(1)} ${(-7 * up).toFixed(1)}`;
    const far = `${(13 * across).toFixed(1)} ${(-13 * up).toFixed(1)}`;
    const back = `M${(-7 * across).toFixed(1)} ${(7 * up).toFixed(1)}L${(-13 * across).toFixed(1)} ${(13 * up).toFixed(1)}`;
    return `M${near}L${far}${back}`;
  });
  return lines.join("");
}

/** Which of two values a first movement means. @param {Handle} handle @param {number} right @param {number} down */
function meant(handle, right, down) {
  if (!handle.also) return handle;
  const sideways = Math.abs(right) >= Math.abs(down);
  return isSideways(handle) === sideways ? handle : handle.also;
}

/** @param {Handle} handle @param {string} key */
function keyed(handle, key) {
  if (!handle.also || !key.startsWith("Arrow")) return handle;
  const sideways = key === "ArrowLeft" || key === "ArrowRight";
  return isSideways(handle) === sideways ? handle : handle.also;
}

/** @param {Handle} handle */
function isSideways(handle) {
  const [across, up] = alongOf(handle);
  return Math.abs(across) >= Math.abs(up);
}
