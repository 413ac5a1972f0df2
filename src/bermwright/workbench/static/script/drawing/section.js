/** @file The section on the board: the drawing of the server, the handles over it, the ring of an open finding. */

import { at, calm, drawn } from "../core/made.js";
import { NARROW } from "../core/protocol.js";
import { Board } from "./board.js";
import { Hand } from "./hand.js";
import { Handles, joined } from "./handles.js";
import { Typed } from "./typed.js";
import { findingsOf } from "../findings/ofpart.js";
import { spot } from "./views.js";

/** Radius of the ring round the place of a finding (px). */
const RING = 30;
/** Of the smaller rings round the places of a chosen part's findings (px), and the most of them. */
const SMALL_RING = 13;
const MOST_RINGS = 12;

export class Section {
  /**
   * @param {import("../core/wire.js").Wire} wire
   * @param {import("../core/store.js").Store} store
   * @param {(at: string) => void} choose a part was pointed at
   */
  constructor(wire, store, choose) {
    this.wire = wire;
    this.store = store;
    this.choose = choose;
    this.board = new Board(at("section"), () => this.relaid());
    this.places = drawn("g", { class: "places" });
    this.rings = drawn("g", { class: "rings" });
    this.board.over.append(this.places, this.rings);
    this.hand = new Hand(wire, store, () => this.handChanged());
    this.typed = new Typed(this.board, wire, store);
    this.handles = new Handles(this.board, this.hand, this.typed);
    wire.on("scene", (scene) => this.scene(scene));
    wire.on("wrong", (message) => this.refused(message));
    store.on(["handles"], (now) => this.newHandles(now));
    store.on(["opened", "found", "part", "parts"], () => this.ring());
    store.on(["part"], () => this.spots());
  }

  /** @param {any} scene */
  scene(scene) {
    if (scene.provisional && scene.seq < this.hand.answered) return;
    if (!scene.provisional && this.hand.held && !this.hand.ending) return;
    if (scene.view && scene.svg) this.board.lay(scene);
    this.store.set({ scene });
    this.board.host.classList.toggle("is-provisional", Boolean(scene.provisional));
    this.handles.follow(scene.handles);
    this.hand.heard(scene);
    if (!this.hand.held) this.board.forgetOld();
    this.ring();
    this.spots();
  }

  /** A drag was refused: the hand hears why. @param {any} message */
  refused(message) {
    if (message.seq === undefined || !this.hand.held) return;
    this.hand.heard({ seq: message.seq, dragged: { says: message.text } });
  }

  /** @param {any} now */
  newHandles(now) {
    if (now.handles) this.handles.show(now.handles.list);
  }

  handChanged() {
    if (this.hand.held && !this.wasHeld) this.board.keepOld();
    this.wasHeld = Boolean(this.hand.held);
    if (!this.wasHeld) this.released();
    document.body.classList.toggle("is-holding", this.wasHeld);
    // Read aloud what came of it, not every step on the way.
    const aloud = this.wasHeld ? "off" : "polite";
    if (at("verdict-text").getAttribute("aria-live") !== aloud) at("verdict-text").setAttribute("aria-live", aloud);
    this.handles.place();
    this.store.set({ held: this.hand.held });
  }

  /** The hand is empty: old lines go, and handles that came meanwhile are shown. */
  released() {
    this.board.forgetOld();
    // What was changed stays where it was left until the new drawing comes.
    if (!this.hand.hasSent) for (const handle of this.handles.list) delete (/** @type {any} */ (handle).shown);
    const newest = this.store.now.handles?.list;
    if (newest && newest !== this.handles.shownList) this.handles.show(newest);
  }

  relaid() {
    this.board.placeOld();
    // The first size comes before the handles do.
    this.handles?.place();
    if (this.rings) this.ring();
    if (this.places) this.spots();
  }

  /** The ring round the place of the open finding, where it is in this drawing. */
  ring() {
    const { found, opened, scene } = this.store.now;
    const finding = found?.findings.find((/** @type {any} */ one) => one.id === opened);
    const spot = finding?.spot;
    if (!spot || !this.board.view || spot.vault !== scene?.vault) {
      this.rings.replaceChildren(...(finding ? [] : this.ofPart()));
      return;
    }
    const { x, y } = this.board.pixels(spot);
    const long = 2 * Math.PI * RING;
    const look = `ring${finding.verdict === "fails" ? " is-fails" : ""}${this.lastRing === opened || calm() ? "" : " is-new"}`;
    this.lastRing = opened;
    this.rings.replaceChildren(
      drawn("circle", { class: look, cx: x, cy: y, r: RING, "stroke-dasharray": long, "stroke-dashoffset": 0 }),
    );
  }

  /** Small rings where a chosen part does not hold, or barely does. */
  ofPart() {
    const { found, part, parts, scene } = this.store.now;
    const chosen = part && parts?.list.find((/** @type {any} */ one) => one.at === part);
    if (!chosen || !this.board.view) return [];
    const open = findingsOf(chosen, found).flatMap(({ first, others }) => [first, ...others]).filter((one) => one.verdict !== "holds" && one.spot && one.spot.vault === scene?.vault);
    return open.slice(0, MOST_RINGS).map((one) => {
      const { x, y } = this.board.pixels(/** @type {any} */ (one.spot));
      return drawn("circle", { class: `ring is-small${one.verdict === "fails" ? " is-fails" : ""}`, cx: x, cy: y, r: SMALL_RING });
    });
  }

  /** Parts that can be chosen by pointing at them; the chosen one is outlined. */
  spots() {
    const { scene, part } = this.store.now;
    const list = this.board.view ? (scene?.places ?? []) : [];
    this.places.replaceChildren(...list.map((/** @type {any} */ one) => spot(one, this.board, this.choose, one.at === part)));
  }

  /** Handles as steppers show them: both directions apart, without the fixed ones. */
  stepped() {
    return joined(this.store.now.handles?.list ?? [])
      .flatMap((handle) => (handle.also ? [handle, handle.also] : [handle]))
      .filter((handle, place, all) => !handle.fixed && all.findIndex((one) => one.key === handle.key) === place);
  }

  /** What the drawing should be laid out for. */
  size() {
    const width = Math.max(320, Math.round(this.board.host.clientWidth || 968));
    return { width, height: Math.round(this.board.host.clientHeight) || undefined, narrow: innerWidth < NARROW };
  }
}
