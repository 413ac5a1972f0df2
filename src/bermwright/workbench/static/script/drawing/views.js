/** @file Plan and model beside the section; a click on "larger" swaps one of them with it. */

import { at, drawn, fill, made, word } from "../core/made.js";
import { Board } from "./board.js";

const NAMES = { plan: "Plan", model: "Model" };
/** Drawings of the plan's place when it is large; small it is the site. */
const DRAWINGS = [
  ["floor", "floor"],
  ["site", "site"],
  ["along", "along"],
  ["front", "front"],
  ["left", "left"],
  ["back", "back"],
  ["right", "right"],
];
/** A house that moves is not drawn from every side at once (ms). */
const SETTLES = 900;

export class Views {
  /**
   * @param {import("../core/wire.js").Wire} wire
   * @param {import("../core/store.js").Store} store
   * @param {(at: string) => void} choose a part was pointed at
   */
  constructor(wire, store, choose) {
    this.wire = wire;
    this.store = store;
    this.choose = choose;
    this.sheet = at("sheet");
    this.big = at("big-view");
    this.beside = at("beside");
    this.drawing = "floor";
    this.planPlace = made("div", { class: "plan-drawing" });
    this.ways = made("p", { class: "plan-ways" });
    for (const name of /** @type {const} */ (["plan", "model"])) this.caption(name);
    at("plan").append(this.ways, this.planPlace);
    this.plan = new Board(this.planPlace, () => this.spots());
    this.places = drawn("g", { class: "places" });
    this.plan.over.append(this.places);
    store.on(["revision", "light", "units"], (now) => now.scene && this.soon());
    store.on(["scene"], (now) => now.scene && this.begin());
    store.on(["part"], () => this.spots());
  }

  /** @param {"plan"|"model"} name */
  caption(name) {
    const larger = word("larger", () => this.swap(name), { class: "word is-small", data: { swap: name } });
    at(name).append(made("p", { class: "view-name" }, made("b", {}, NAMES[name]), " ", larger));
  }

  /** Whether the plan lies in the place of the section. */
  get planIsLarge() {
    return at("plan").parentElement === this.big;
  }

  /** There is a house to be drawn: before that nobody is asked. */
  begin() {
    if (this.begun) return;
    this.begun = true;
    this.soon();
    this.mountModel();
  }

  soon() {
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.fetchPlan(), this.plan.view ? SETTLES : 0);
  }

  /** The plan is another drawing of the same house. */
  async fetchPlan() {
    const { scene, light, units } = this.store.now;
    const large = this.planIsLarge;
    const wanted = { drawing: large ? this.drawing : "site", vault: scene?.vault ?? 0, light, units, large: large ? "yes" : "no" };
    const asked = (this.asked = new URLSearchParams(/** @type {any} */ (wanted)).toString());
    try {
      const answer = await fetch(`/plan?${asked}`);
      if (asked !== this.asked) return;
      const plan = await answer.json();
      if (plan.wrong) fill(this.planPlace, made("p", { class: "quiet" }, plan.wrong));
      else this.show(plan);
    } catch {
      // The line is down, which is said elsewhere: the plan of before stays.
    }
  }

  /** @param {any} plan */
  show(plan) {
    if (!this.planPlace.contains(this.plan.sheet)) fill(this.planPlace, this.plan.sheet, this.plan.over);
    this.shown = plan;
    this.plan.lay(plan);
    this.planWays();
    this.spots();
  }

  planWays() {
    const words = this.planIsLarge ? DRAWINGS.map(([name, text]) => word(text, () => this.turn(name), { class: "word is-small", "aria-pressed": name === this.drawing })) : [];
    fill(this.ways, ...words.flatMap((one, place) => (place ? [" · ", one] : [one])));
  }

  /** @param {string} name */
  turn(name) {
    this.drawing = name;
    this.planWays();
    this.fetchPlan();
  }

  /** Parts that can be chosen by pointing at them in the plan. */
  spots() {
    if (!this.places) return;
    const list = this.planIsLarge && this.plan.view ? (this.shown?.places ?? []) : [];
    fill(this.places, ...list.map((/** @type {any} */ one) => spot(one, this.plan, this.choose, one.at === this.store.now.part)));
  }

  async mountModel() {
    try {
      const model = await import("../model.js");
      await model.mount(at("model"), { store: this.store });
    } catch {
      at("model").hidden = true;
    }
  }

  /** Swap the section with another view, or back. @param {"plan"|"model"} name */
  swap(name) {
    const view = at(name);
    const isBig = view.parentElement === this.big;
    this.back();
    if (!isBig) this.enlarge(name, view);
    if (name === "plan") this.fetchPlan();
    view.querySelector(`[data-swap="${name}"]`)?.focus();
  }

  /** @param {string} name @param {HTMLElement} view */
  enlarge(name, view) {
    fill(this.big, view);
    this.sheet.dataset.shows = name;
    this.big.hidden = false;
    // On a phone the large view lies in another place than the small one.
    document.dispatchEvent(new CustomEvent("place", { detail: "drawing" }));
    const words = view.querySelector(`[data-swap="${name}"]`);
    if (words) words.textContent = "back to the section";
    this.planWays();
  }

  /** The section on the board, everything else beside it. */
  back() {
    for (const name of ["plan", "model"]) {
      const view = at(name);
      if (view.parentElement !== this.beside) this.beside[name === "plan" ? "prepend" : "append"](view);
      view.querySelector(`[data-swap="${name}"]`).textContent = "larger";
    }
    fill(this.big);
    this.big.hidden = true;
    this.sheet.dataset.shows = "section";
    this.planWays();
  }
}

/**
 * A part as a place that can be pointed at.
 * @param {{at: string, name: string, kind: string, ring: number[][]}} one
 * @param {Board} board
 * @param {(at: string) => void} choose
 * @param {boolean} isChosen
 */
export function spot(one, board, choose, isChosen) {
  const corners = one.ring.map(([x, z]) => board.pixels({ x, z }));
  const d = corners.map(({ x, y }, at_) => `${at_ ? "L" : "M"}${x.toFixed(1)} ${y.toFixed(1)}`).join("");
  return drawn("path", { class: `place${isChosen ? " is-chosen" : ""}`, d: `${d}z`, data: { place: one.at }, on: { click: () => choose(one.at) } }, drawn("title", {}, one.name === one.kind ? one.name : `${one.name}, ${one.kind}`));
}
