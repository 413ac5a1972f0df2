/** @file One drawing of the server on the page: laid in, fitted, and metres found under a pointer. */

import { drawn, made } from "../core/made.js";
import { Sheet } from "../core/sheet.js";

/** @typedef {import("../core/protocol.js").View} View */

export class Board {
  /**
   * @param {HTMLElement} host
   * @param {() => void} [relaid] called when the drawing changed its size
   */
  constructor(host, relaid = () => {}) {
    this.host = host;
    this.sheet = made("div", { class: "laid" });
    this.drawing = new Sheet(this.sheet);
    this.over = drawn("svg", { class: "over" });
    this.old = drawn("g", { class: "old-lines" });
    this.over.append(this.old);
    host.append(this.sheet, this.over);
    /** @type {View|null} */
    this.view = null;
    this.factor = 1;
    this.relaid = relaid;
    new ResizeObserver(() => this.fit()).observe(host);
  }

  /** Put a drawing in place. @param {{svg: string, view: View}} scene */
  lay(scene) {
    if (!this.drawing.show(scene.svg)) return false;
    const before = this.view;
    this.view = scene.view;
    // Measuring the place makes the browser lay out the whole page: only where something could have changed.
    if (!before || before.width !== scene.view.width || before.height !== scene.view.height) this.fit();
    else this.relaid();
    return true;
  }

  /** The largest size that the place has room for. */
  fit() {
    const view = this.view;
    if (!view) return;
    const wide = this.host.clientWidth;
    const tall = this.host.clientHeight || Infinity;
    const factor = Math.min(wide / view.width, tall / view.height);
    this.factor = factor > 0 ? factor : 1;
    const size = { width: `${view.width * this.factor}px`, height: `${view.height * this.factor}px` };
    Object.assign(this.sheet.style, size);
    Object.assign(this.over.style, size);
    this.relaid();
  }

  /** Pixels of a place in metres. @param {{x: number, z: number}} place */
  pixels(place) {
    const view = /** @type {View} */ (this.view);
    return {
      x: (view.x0 + view.scale * place.x) * this.factor,
      y: (view.z0 - view.scale * place.z) * this.factor,
    };
  }

  /** Pixels of the screen for one metre. */
  get metre() {
    return (this.view?.scale ?? 1) * this.factor;
  }

  /** Keep the lines that stand now as a chain line, until the hand lets go. */
  keepOld() {
    if (!this.view) return;
    this.oldView = this.view;
    const heavy = [...this.sheet.querySelectorAll('path[stroke-width="0.5"]')];
    const ratio = this.view.width / this.boxWidth();
    const lines = heavy.map((path) => drawn("path", { d: path.getAttribute("d") }));
    this.old.replaceChildren(drawn("g", { transform: `scale(${ratio})` }, ...lines));
    this.placeOld();
  }

  /** Width of the drawing in its own units. */
  boxWidth() {
    const box = this.sheet.querySelector("svg")?.getAttribute("viewBox")?.split(" ") ?? [];
    return Number(box[2]) || 1;
  }

  placeOld() {
    const before = this.oldView;
    const view = this.view;
    if (!before || !view) return;
    const grown = (view.scale / before.scale) * this.factor;
    const right = view.x0 * this.factor - before.x0 * grown;
    const down = view.z0 * this.factor - before.z0 * grown;
    this.old.setAttribute("transform", `translate(${right} ${down}) scale(${grown})`);
  }

  forgetOld() {
    this.oldView = null;
    this.old.replaceChildren();
  }
}
