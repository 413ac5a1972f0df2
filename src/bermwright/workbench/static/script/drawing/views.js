/** @file Plan and model beside the section; a click on "larger" swaps one of them with it. */

import { at, made, word } from "../core/made.js";
import { Board } from "./board.js";

const NAMES = { plan: "Plan", model: "Model" };

export class Views {
  /**
   * @param {import("../core/wire.js").Wire} wire
   * @param {import("../core/store.js").Store} store
   * @param {(at: string) => void} choose
   */
  constructor(wire, store, choose) {
    this.wire = wire;
    this.store = store;
    this.choose = choose;
    this.sheet = at("sheet");
    this.big = at("big-view");
    this.beside = at("beside");
    for (const name of /** @type {const} */ (["plan", "model"])) this.caption(name);
    this.planPlace = made("div", { class: "plan-drawing" });
    at("plan").append(this.planPlace);
    this.plan = new Board(this.planPlace);
    this.hide("plan");
    this.hide("model");
    wire.on("scene", (scene) => this.scene(scene));
    wire.on("revision", (revision) => this.ask(revision));
    this.mountModel();
  }

  /** @param {"plan"|"model"} name */
  caption(name) {
    const larger = word("larger", () => this.swap(name), { class: "word is-small", data: { swap: name } });
    at(name).append(made("p", { class: "view-name" }, made("b", {}, NAMES[name]), " ", larger));
  }

  /** @param {string} name */
  hide(name) {
    at(name).hidden = true;
    this.beside.hidden = ["plan", "model"].every((one) => at(one).hidden);
  }

  /** @param {string} name */
  show(name) {
    at(name).hidden = false;
    this.beside.hidden = false;
  }

  /** The plan is another drawing of the same house. @param {any} revision */
  ask(revision) {
    if (revision.number === this.asked) return;
    this.asked = revision.number;
    this.wire.send({ say: "look", view: "plan", width: 360 });
    this.wire.send({ say: "look", view: "section", width: this.width?.() });
  }

  /** @param {any} scene */
  scene(scene) {
    if (scene.view_of !== "plan" || !scene.svg || !scene.view) return;
    this.show("plan");
    this.plan.lay(scene);
  }

  async mountModel() {
    try {
      const model = await import("../model.js");
      this.show("model");
      await model.mount(at("model"), { wire: this.wire, store: this.store });
    } catch {
      this.hide("model");
    }
  }

  /** Swap the section with another view, or back. @param {"plan"|"model"} name */
  swap(name) {
    const view = at(name);
    const isBig = view.parentElement === this.big;
    this.back();
    if (isBig) return;
    this.big.replaceChildren(view);
    this.sheet.dataset.shows = name;
    this.big.hidden = false;
    view.querySelector(`[data-swap="${name}"]`).textContent = "back to the section";
  }

  /** The section on the board, everything else beside it. */
  back() {
    for (const name of ["plan", "model"]) {
      const view = at(name);
      if (view.parentElement !== this.beside) this.beside.append(view);
      view.querySelector(`[data-swap="${name}"]`).textContent = "larger";
    }
    this.big.replaceChildren();
    this.big.hidden = true;
    this.sheet.dataset.shows = "section";
  }
}
