/** @file On a phone steppers take the place of handles: a stage stepper, and a row for each value. */

import { at, made } from "../core/made.js";
import { NARROW } from "../core/protocol.js";
import { nameOf, stagesOf } from "./building.js";

export class Steppers {
  /**
   * @param {import("./section.js").Section} section
   * @param {import("../core/store.js").Store} store
   * @param {(at: number) => void} goStage
   */
  constructor(section, store, goStage) {
    this.section = section;
    this.store = store;
    this.goStage = goStage;
    this.host = at("steppers");
    store.on(["handles", "scene", "held", "axes", "readonly"], () => this.draw());
    matchMedia(`(max-width: ${NARROW - 1}px)`).addEventListener("change", () => this.draw());
  }

  draw() {
    const narrow = innerWidth < NARROW;
    this.host.hidden = !narrow;
    if (!narrow) return;
    const focused = /** @type {any} */ (document.activeElement)?.dataset?.step;
    const rows = this.store.now.readonly ? [] : [...this.section.stepped()].sort(usual).map((handle) => this.row(handle));
    const staged = stagesOf(this.store.now).length > 0;
    this.host.replaceChildren(...(staged ? [this.stage(), this.feet()] : []), ...rows);
    if (focused) this.host.querySelector(`[data-step="${CSS.escape(focused)}"]`)?.focus();
  }

  stage() {
    const stages = stagesOf(this.store.now);
    const now = stages.findIndex((/** @type {any} */ one) => one.stage === this.store.now.scene?.stage);
    const one = stages[now];
    const figure = one?.ratio_text ? `${one.ratio_text} of strength, ${String(one.verdict).toUpperCase()}` : (one?.verdict ?? "");
    return made(
      "div",
      { class: "stepper is-stage" },
      this.button("‹", "stage before", "stage-", now <= 0, () => this.goStage(now - 1)),
      made(
        "p",
        { class: "stepper-words" },
        made("b", {}, one ? `${now + 1}. ${nameOf(one)}` : "No stage"),
        made("span", { class: `figure${one?.verdict === "fails" ? " is-fails" : ""}` }, figure),
      ),
      this.button("›", "stage after", "stage+", now < 0 || now >= stages.length - 1, () => this.goStage(now + 1)),
    );
  }

  /** What the feet give their supports: on a phone the drawing has no room for it. */
  feet() {
    const feet = this.store.now.scene?.feet ?? [];
    const one = (/** @type {any} */ foot) => made("p", {}, made("b", {}, `${foot.side} foot`), " ", made("span", { class: "figure" }, foot.text));
    return feet.length ? made("div", { class: "stepper-feet" }, ...feet.map(one)) : "";
  }

  /** @param {any} handle */
  row(handle) {
    const held = this.section.hand.held?.moved.name === handle.name ? this.section.hand.held : null;
    const value = held?.text ?? held?.write ?? handle.text;
    const under = held ? (held.says ?? `was ${handle.text}`) : range(handle);
    return made(
      "div",
      { class: `stepper${held ? " is-held" : ""}` },
      made("p", { class: "stepper-words" }, made("b", {}, handle.label, " ", made("span", { class: "figure" }, value)), made("span", { class: "under" }, under)),
      this.button("−", `${handle.label}: one step less`, `${handle.name}-`, false, () => this.step(handle, -1)),
      this.button("+", `${handle.label}: one step more`, `${handle.name}+`, false, () => this.step(handle, 1)),
    );
  }

  /** @param {any} handle @param {number} count */
  step(handle, count) {
    this.section.hand.take(handle);
    this.section.hand.nudge(count, "snap");
  }

  /** @param {string} text @param {string} label @param {string} name @param {boolean} off @param {() => void} act */
  button(text, label, name, off, act) {
    return made("button", { type: "button", class: "step", "aria-label": label, disabled: off, data: { step: name }, on: { click: act } }, text);
  }
}

/** @param {any} handle */
function range(handle) {
  return handle.low && handle.high ? `${handle.low} to ${handle.high}` : "";
}

const USUAL = ["crown", "left foot", "springing left", "crown cover"];

/** The great values first. @param {any} a @param {any} b */
function usual(a, b) {
  const place = (/** @type {any} */ one) => (USUAL.indexOf(one.name) + USUAL.length + 1) % (USUAL.length + 1);
  return place(a) - place(b);
}
