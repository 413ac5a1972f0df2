/** @file The three rules of time under the drawing: building, year, storm. One is in hand (tall), the others thin. */

import { calm, drawn, fill, made } from "../core/made.js";
import { bob, slug } from "../core/signs.js";
import { buildingAxis } from "./building.js";
import { stormAxis } from "./storm.js";
import { yearAxis } from "./year.js";

/** @typedef {{at: number, count: number, spots: number[], text: string, go: (at: number) => void}} Rule */

const LEFT = 92;
const RIGHT = 10;
/** Between two drawings of the axes while something is held (ms). */
const PAUSE = 300;

export class Axes {
  /**
   * @param {HTMLElement} host
   * @param {import("../core/store.js").Store} store
   * @param {{stage: (at: number) => void, week: (at: number) => void, storm: (at: number) => void}} go
   */
  constructor(host, store, go) {
    this.host = host;
    this.store = store;
    this.go = go;
    this.tall = "building";
    this.width = 0;
    /** Where each bob hung last (px). @type {Record<string, number>} */
    this.lastBob = {};
    store.on(["axes", "scene", "week", "running", "revision"], () => this.soon());
    new ResizeObserver(() => this.resized()).observe(host);
  }

  /** At once, but while a hand drags only now and then: the drawing needs the time. */
  soon() {
    clearTimeout(this.timer);
    const since = performance.now() - (this.drawnAt ?? 0);
    if (!this.store.now.held || since > PAUSE) this.draw();
    else this.timer = setTimeout(() => this.draw(), PAUSE - since);
  }

  resized() {
    if (this.room() !== this.width) this.draw();
  }

  /** Width inside the padding (px). */
  room() {
    const style = getComputedStyle(this.host);
    return Math.floor(this.host.clientWidth - Number.parseFloat(style.paddingLeft) - Number.parseFloat(style.paddingRight));
  }

  draw() {
    const now = this.store.now;
    this.drawnAt = performance.now();
    this.width = this.room();
    if (!now.scene || !(this.width > 0)) return;
    // A dome has no stages yet: nothing is drawn of what is not known.
    if (!now.scene.stages?.length && !now.axes?.building?.length) return fill(this.host);
    const focused = document.activeElement?.getAttribute("data-axis");
    const box = { width: this.width, left: this.width < 560 ? 0 : LEFT, right: this.width < 560 ? 0 : RIGHT };
    const rules = [
      this.rule("building", "Building", buildingAxis(now, { ...box, tall: this.isTall("building") }), this.go.stage),
      now.axes?.year
        ? this.rule("year", "Year", yearAxis(now, { ...box, tall: this.isTall("year") }), this.go.week)
        : null,
      this.rule("storm", "Storm", stormAxis(now, box), this.go.storm),
    ];
    fill(this.host, ...rules);
    this.host.classList.toggle("is-stale", isStale(now));
    const again = focused && this.host.querySelector(`[data-axis="${focused}"]`);
    if (again) /** @type {any} */ (again).focus({ preventScroll: true });
  }

  /** @param {string} name */
  isTall(name) {
    return this.tall === name;
  }

  /**
   * @param {string} name @param {string} label
   * @param {{svg: SVGElement, at: number, spots: number[], texts: string[], bobAt: {x: number, y: number}|null}} made_
   * @param {(at: number) => void} go
   */
  rule(name, label, made_, go) {
    const { svg, at, spots, texts, bobAt } = made_;
    for (const [key, value] of Object.entries({
      // Scales with the paper.
      viewBox: `0 0 ${svg.getAttribute("width")} ${svg.getAttribute("height")}`,
      "data-axis": name,
      tabindex: 0,
      role: "slider",
      "aria-label": `${label}: arrow keys step through it`,
      "aria-valuemin": 0,
      "aria-valuemax": Math.max(0, spots.length - 1),
      "aria-valuenow": Math.max(0, at),
      "aria-valuetext": texts[at] ?? "nowhere yet",
    })) {
      svg.setAttribute(key, String(value));
    }
    svg.addEventListener("keydown", (event) => this.key(event, at, spots.length, go));
    this.touch(svg, name, spots, go);
    if (bobAt) svg.append(this.hung(name, bobAt));
    return made("div", { class: `axis axis-${name}` }, svg);
  }

  /** @param {string} name @param {{x: number, y: number}} place */
  hung(name, place) {
    const mark = drawn("g", { transform: `translate(${place.x} ${place.y})` }, bob());
    if (this.lastBob[name] !== undefined && this.lastBob[name] !== place.x && !calm()) {
      mark.firstChild.classList.add("swings");
    }
    this.lastBob[name] = place.x;
    return mark;
  }

  /** @param {KeyboardEvent} event @param {number} at @param {number} count @param {(at: number) => void} go */
  key(event, at, count, go) {
    const step = { ArrowLeft: -1, ArrowDown: -1, ArrowRight: 1, ArrowUp: 1 }[event.key];
    const jump = { Home: 0, End: count - 1 }[event.key];
    const next = jump ?? (step ? at + step : undefined);
    if (next === undefined) return;
    event.preventDefault();
    if (next >= 0 && next < count && next !== at) go(next);
  }

  /** A tap goes there; a drag takes the bob along. */
  touch(/** @type {SVGElement} */ svg, /** @type {string} */ name, /** @type {number[]} */ spots, /** @type {(at: number) => void} */ go) {
    let last = -1;
    const to = (/** @type {PointerEvent} */ event) => {
      const x = event.clientX - svg.getBoundingClientRect().left;
      const at = nearest(spots, x);
      if (at === last) return;
      last = at;
      go(at);
    };
    svg.addEventListener("pointerdown", (event) => {
      if (event.button !== 0) return;
      this.tall = name === "storm" ? this.tall : name;
      this.host.setPointerCapture(event.pointerId);
      this.host.onpointermove = to;
      this.host.onpointerup = this.host.onpointercancel = () => (this.host.onpointermove = null);
      last = -1;
      to(event);
      this.draw();
      /** @type {any} */ (this.host.querySelector(`[data-axis="${name}"]`))?.focus({ preventScroll: true });
    });
  }
}

/** Whether what the axes show was found for an older revision. @param {any} now */
export function isStale(now) {
  return Boolean(now.axes && now.revision && now.axes.revision !== now.revision.number);
}

/** @param {number[]} spots @param {number} x */
function nearest(spots, x) {
  let best = 0;
  spots.forEach((spot, at) => {
    if (Math.abs(spot - x) < Math.abs(spots[best] - x)) best = at;
  });
  return best;
}

/**
 * The heading at the left of an axis.
 * @param {number} y @param {string} name @param {string} [under] @param {string} [look]
 */
export function heading(y, name, under = "", look = "") {
  return drawn(
    "g",
    { class: "axis-head" },
    drawn("text", { x: 0, y, class: "axis-name" }, name),
    under ? drawn("text", { x: 0, y: y + 15, class: `axis-under ${look}` }, under) : null,
  );
}

/** @param {string} verdict */
export function against(verdict) {
  return slug(verdict) === "fails" ? " is-fails" : "";
}
