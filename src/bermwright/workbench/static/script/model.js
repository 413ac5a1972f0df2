/** @file The model beside the section: mounts the view, and the words with which it is turned, peeled, cut and lit. */

import { made, word } from "./core/made.js";

const MONTHS = ["January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"];
const ALT = "The house as a model. Arrow keys turn it, plus and minus bring it nearer, Home puts it back.";
/** After an edit the bodies are made anew once it is quiet for so long (ms). */
const SETTLES = 900;
const MIDSUMMER = 172;
/** From where the place of a cut is counted. */
const FROM = { none: "not cut", across: "from the front", along: "from the right", level: "from above" };

/**
 * Put the model into a place of the page.
 * @param {HTMLElement} place
 * @param {{store?: import("./core/store.js").Store}} known
 */
export async function mount(place, { store } = {}) {
  const model = new Model(place);
  document.addEventListener("light", () => model.light());
  let waiting = 0;
  let wanted = -1;
  let shown = -1;
  // Nothing is built anew under a moving hand, nor where nobody sees it.
  const settle = (wait) => {
    clearTimeout(waiting);
    waiting = setTimeout(() => {
      if (wanted === shown || !place.getClientRects().length) return;
      if (held) return settle(SETTLES);
      shown = wanted;
      model.load(wanted);
    }, wait);
  };
  let held = false;
  document.addEventListener("pointerdown", (event) => (held = !place.contains(/** @type {Node} */ (event.target))), true);
  for (const end of ["pointerup", "pointercancel"]) document.addEventListener(end, () => (held = false), true);
  new ResizeObserver(() => settle(0)).observe(place);
  const follow = (number) => {
    if (number === wanted) return;
    wanted = number;
    settle(shown < 0 ? 0 : SETTLES);
  };
  if (store) store.on(["revision"], (now) => now.revision && follow(now.revision.number));
  else follow(0);
  return model;
}

export class Model {
  /** @param {HTMLElement} place */
  constructor(place) {
    this.canvas = made("div", { class: "model-place" });
    this.says = made("p", { class: "model-says", role: "status" });
    this.words = made("div", { class: "model-words" });
    place.append(this.canvas, this.says, this.words);
    this.day = MIDSUMMER;
    this.hour = 10;
  }

  /** @param {number} number */
  async load(number) {
    if (this.lines) return this.draw();
    let answer;
    try {
      answer = await fetch(`/model.glb?revision=${number}`);
    } catch {
      return this.say("The server does not answer: the model is that of before.");
    }
    // What stands there is then the house of before.
    this.canvas.classList.toggle("is-stale", isWords(answer) && Boolean(this.view));
    if (isWords(answer)) return this.say(await wrong(answer));
    const bytes = await answer.arrayBuffer();
    try {
      await this.open();
      await this.view.show(bytes);
      this.say("");
      const shown = JSON.stringify([this.view.layers.map((one) => one.name), this.view.vault]);
      // Words that are being used stay where they are.
      if (shown !== this.shown) this.controls();
      this.shown = shown;
      this.sunshine();
    } catch (fault) {
      await this.degrade(fault);
    }
  }

  async open() {
    if (this.view) return;
    // Asked before three is, which would complain aloud.
    if (!document.createElement("canvas").getContext("webgl2")) throw new Error("no WebGL");
    const { ModelView } = await import("./model-view.js");
    this.view = new ModelView(this.canvas);
    this.view.canvas.addEventListener("click", (event) => this.say(this.view?.named(event.clientX, event.clientY) ?? ""));
    this.view.canvas.addEventListener("webglcontextlost", () => this.degrade("the view was lost"));
    this.view.canvas.setAttribute("role", "img");
    this.view.canvas.setAttribute("aria-label", ALT);
  }

  /** Without three or without WebGL the server's line drawing stands in its place. */
  async degrade(fault) {
    this.lines = true;
    this.view = null;
    this.words.replaceChildren();
    this.canvas.dataset.without = String(fault?.message ?? fault).slice(0, 200);
    await this.draw();
  }

  async draw() {
    const light = document.documentElement.dataset.light ?? "day";
    const answer = await fetch(`/model/lines?light=${light}`);
    if (isWords(answer)) return this.say(await wrong(answer));
    const page = new DOMParser().parseFromString(await answer.text(), "image/svg+xml");
    const drawing = document.importNode(page.documentElement, true);
    drawing.removeAttribute("width");
    drawing.removeAttribute("height");
    drawing.classList.add("model-lines");
    this.canvas.replaceChildren(drawing);
    this.say("Drawn with lines: this browser has no model view.");
  }

  light() {
    if (this.lines) this.draw();
    else this.view?.dress();
  }

  /** @param {string} text */
  say(text) {
    this.says.textContent = text;
    this.says.hidden = !text;
  }

  controls() {
    const wish = this.view.wish;
    this.words.replaceChildren(
      made("fieldset", {}, made("legend", {}, "Cut"), this.planes(wish), this.range("cut-place", FROM[wish.plane], { min: 0, max: 100, value: 100 * wish.share }, (value) => this.wish({ share: value / 100 })), this.spared(wish)),
      made("fieldset", {}, made("legend", {}, "Sun"), this.dayLine(), this.hourLine(), (this.sunSays = made("p", { class: "model-sun", role: "status" }))),
      made("fieldset", { class: "model-layers" }, made("legend", {}, "Layers"), this.peeling(), made("ul", {}, ...this.view.layers.map((layer) => this.layer(layer)).reverse())),
      made("p", { class: "model-acts" }, word("look as at first", () => this.view.home(), { class: "word is-small" })),
      ...this.view.vault.remarks.map((text) => made("p", { class: "model-remark" }, text)),
    );
  }

  wish(news) {
    Object.assign(this.view.wish, news);
    this.view.apply();
  }

  peeling() {
    const names = () => this.view.layers.map((one) => one.name).reverse();
    const peel = () => {
      const next = names().find((name) => !this.view.wish.hidden.has(name));
      if (next) this.toggle(next, true);
    };
    const back = () => {
      const last = names().reverse().find((name) => this.view.wish.hidden.has(name));
      if (last) this.toggle(last, false);
    };
    return made("p", { class: "model-acts" }, word("peel one", peel, { class: "word is-small" }), " ", word("put one back", back, { class: "word is-small" }));
  }

  toggle(name, hide) {
    const hidden = this.view.wish.hidden;
    if (hide) hidden.add(name);
    else hidden.delete(name);
    const box = this.words.querySelector(`input[data-layer="${CSS.escape(name)}"]`);
    if (box) box.checked = !hide;
    this.view.apply();
  }

  layer(layer) {
    const box = made("input", { type: "checkbox", checked: !this.view.wish.hidden.has(layer.name), data: { layer: layer.name }, on: { change: () => this.toggle(layer.name, !box.checked) } });
    return made("li", {}, made("label", {}, box, " ", layer.name));
  }

  planes(wish) {
    const turn = () => {
      this.words.querySelector("#cut-place").previousSibling.textContent = FROM[choose.value];
      this.wish({ plane: choose.value });
    };
    const choose = made("select", { "aria-label": "Where the model is cut", on: { change: turn } });
    for (const [value, text] of [["none", "not cut"], ["across", "across the vault"], ["along", "along the vault"], ["level", "level"]]) {
      choose.append(made("option", { value, selected: value === wish.plane }, text));
    }
    return choose;
  }

  spared(wish) {
    const box = made("input", { type: "checkbox", checked: wish.stands, on: { change: () => this.wish({ stands: box.checked }) } });
    return made("label", {}, box, " leave ribs and walls standing");
  }

  range(id, label, traits, act) {
    const bar = made("input", { type: "range", id, ...traits, on: { input: () => act(Number(bar.value)) } });
    return made("label", { class: "model-range" }, made("span", {}, label), bar);
  }

  dayLine() {
    const text = made("span", {}, dated(this.day));
    const bar = made("input", { type: "range", min: 1, max: 365, value: this.day, "aria-label": "Day of the year", on: { input: () => {
      this.day = Number(bar.value);
      text.textContent = dated(this.day);
      this.sunshine();
    } } });
    return made("label", { class: "model-range" }, text, bar);
  }

  hourLine() {
    const text = made("span", {}, timed(this.hour));
    const bar = made("input", { type: "range", min: 0, max: 24, step: 0.25, value: this.hour, "aria-label": "Hour by the sun", on: { input: () => {
      this.hour = Number(bar.value);
      text.textContent = timed(this.hour);
      this.shine();
    } } });
    return made("label", { class: "model-range" }, text, bar);
  }

  /** Ask for the sun of the chosen day; the last day asked for counts. */
  async sunshine() {
    const asked = (this.asked = (this.asked ?? 0) + 1);
    const answer = await fetch(`/model/sun?day=${this.day}`).catch(() => null);
    if (asked !== this.asked || !this.view) return;
    const told = answer?.ok ? await answer.json() : { wrong: "The server does not answer." };
    this.sky = told.wrong ? null : told;
    if (this.sky) return this.shine();
    this.view.shine(null, null);
    if (this.sunSays) this.sunSays.textContent = told.wrong;
  }

  shine() {
    if (!this.sky) return;
    const height = between(this.sky.height, this.hour * 2);
    const turn = between(this.sky.turn, this.hour * 2, true);
    this.view.shine(height, turn);
    this.sunSays.textContent = height > 0 ? `The sun stands ${Math.round(height)}° high, ${aside(turn)}.` : "The sun is down.";
  }
}

/** A value between two half hours. */
function between(values, at, isTurn = false) {
  const low = Math.min(values.length - 1, Math.floor(at));
  const high = Math.min(values.length - 1, low + 1);
  let step = values[high] - values[low];
  if (isTurn && Math.abs(step) > 180) step -= Math.sign(step) * 360;
  return values[low] + (at - low) * step;
}

function aside(turn) {
  const turned = ((turn + 540) % 360) - 180;
  const round = Math.round(Math.abs(turned));
  if (round < 8) return "before whoever walks in";
  if (round > 172) return "behind whoever walks in";
  return `${round}° to the ${turned > 0 ? "right" : "left"} of the way in`;
}

function dated(day) {
  const date = new Date(Date.UTC(2027, 0, day));
  return `${date.getUTCDate()} ${MONTHS[date.getUTCMonth()]}`;
}

function timed(hour) {
  return `${String(Math.floor(hour)).padStart(2, "0")}:${String(Math.round((hour % 1) * 60)).padStart(2, "0")}`;
}

/** Whether the server says why there is nothing to show. @param {Response} answer */
function isWords(answer) {
  return !answer.ok || (answer.headers.get("content-type") ?? "").startsWith("application/json");
}

async function wrong(answer) {
  try {
    return (await answer.json()).wrong ?? "";
  } catch {
    return "The server cannot say what is wrong.";
  }
}
