/**
 * @file One hand changing one value: by pointer, by keys, by steppers. It sends where it stands at most once a frame,
 * the last place always, and makes one revision of the whole movement.
 */

import { alongOf, isSlope, localValue, reach, slopeOf, steppedSlope } from "./values.js";

/** @typedef {import("../core/protocol.js").Handle} Handle */
/** @typedef {{x: number, z: number}} Place */
/**
 * @typedef {object} Held
 * @property {Handle} handle    the mark that is held
 * @property {Handle} moved     the value that it changes: its own, or that of the other direction
 * @property {Place} place
 * @property {boolean} fine
 * @property {string} [write]   a value written by keys (slopes)
 * @property {string} [value]   as the server made it of the place
 * @property {string} [text]
 * @property {string} [says]    why it cannot be so
 */

/** After the last press of a key the movement is over (ms). */
const PAUSE = 700;
/** A server that does not answer for so long is not waited for (ms). */
const PATIENCE = 3000;

export class Hand {
  /**
   * @param {import("../core/wire.js").Wire} wire
   * @param {import("../core/store.js").Store} store
   * @param {() => void} changed draw the held value again
   */
  constructor(wire, store, changed) {
    this.wire = wire;
    this.store = store;
    this.changed = changed;
    /** @type {Held|null} */
    this.held = null;
    this.seq = 0;
    this.answered = 0;
    this.waiting = false;
    this.ending = false;
  }

  /** Take hold of a value. @param {Handle} handle @param {Handle} [moved] */
  take(handle, moved = handle) {
    clearTimeout(this.timer);
    if (this.held?.moved.name === moved.name) return;
    if (this.held) this.commit();
    this.held = { handle, moved, place: { x: moved.x, z: moved.z }, fine: false };
    this.first = this.seq;
    this.hasSent = false;
    this.ending = false;
    this.changed();
  }

  /** @param {Place} place @param {boolean} fine */
  move(place, fine) {
    const held = this.held;
    if (!held) return;
    held.fine = fine;
    held.place = place;
    this.ask();
  }

  /** Some steps by keys or by a stepper. @param {number} count @param {"snap"|"fine"|"page"} size */
  nudge(count, size) {
    const held = this.held;
    if (!held) return;
    held.fine = size === "fine";
    if (isSlope(held.moved)) this.nudgeSlope(held, count, size);
    else this.nudgeLength(held, count, size);
    this.ask();
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.letGo(), PAUSE);
  }

  /** @param {Held} held @param {number} count @param {"snap"|"fine"|"page"} size */
  nudgeLength(held, count, size) {
    const far = count * (held.moved.reach?.[size] ?? reach(held.moved, held.moved[size]));
    const [across, up] = alongOf(held.moved);
    held.place = { x: held.place.x + far * across, z: held.place.z + far * up };
  }

  /** @param {Held} held @param {number} count @param {"snap"|"fine"|"page"} size */
  nudgeSlope(held, count, size) {
    const from = slopeOf(held.write ?? held.value ?? held.moved.value);
    held.write = steppedSlope(held.moved, from, count * Number.parseFloat(held.moved[size]));
  }

  /** Ask for the drawing of where the hand is, with the next frame. */
  ask() {
    if (this.waiting) return;
    this.waiting = true;
    requestAnimationFrame(() => {
      this.waiting = false;
      this.sendDrag();
    });
  }

  sendDrag() {
    const held = this.held;
    if (!held) return;
    const what = held.write ? { value: held.write } : { ...held.place, handle: held.moved.name, fine: held.fine };
    this.wire.send({ say: "drag", seq: ++this.seq, key: held.moved.key, ...what });
  }

  /** A provisional drawing has come: what the place means. @param {any} scene */
  heard(scene) {
    const held = this.held;
    if (!held || !(scene.seq > (this.first ?? 0))) return;
    this.answered = Math.max(this.answered, scene.seq);
    Object.assign(held, { value: scene.dragged?.value, text: scene.dragged?.text, says: scene.dragged?.says });
    if (this.ending && !this.waiting && this.answered >= this.seq) this.commit();
    else this.changed();
  }

  /** The movement is over: one revision, as soon as the last place is answered. */
  letGo() {
    clearTimeout(this.timer);
    const held = this.held;
    if (!held || this.ending) return;
    if (this.seq === this.first && !this.waiting) return this.drop();
    if (!this.waiting && this.answered >= this.seq) return this.commit();
    this.ending = true;
    this.timer = setTimeout(() => this.commit(), this.wire.open ? PATIENCE : 0);
    return undefined;
  }

  commit() {
    clearTimeout(this.timer);
    const held = this.held;
    this.held = null;
    this.ending = false;
    if (!held) return;
    const value = held.value ?? held.write ?? localValue(held.moved, held.place, held.fine);
    if (!value || held.says || value === held.moved.value) this.look();
    else this.edit(held, value);
    this.changed();
  }

  /** @param {Held} held @param {string} value */
  edit(held, value) {
    this.hasSent = true;
    this.wire.send({
      say: "edit",
      changes: [[held.moved.key, value]],
      label: `${held.moved.label} ${held.text ?? value}`,
      base: this.store.now.revision?.number,
    });
    held.moved.value = value;
    held.moved.text = held.text ?? value;
  }

  /** Let go of something that was not moved. */
  drop() {
    this.held = null;
    this.changed();
  }

  /** Give the movement up: everything as it was. */
  giveUp() {
    clearTimeout(this.timer);
    if (!this.held) return;
    this.held = null;
    this.ending = false;
    if (this.seq > (this.first ?? 0)) this.look();
    this.changed();
  }

  /** The true drawing again, without what the hand tried. */
  look() {
    this.wire.send({ say: "look" });
  }
}
