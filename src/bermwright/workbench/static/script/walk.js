/** @file The beginner's walk: five steps over the drawing, each with its place pointed at. */

import { made, word } from "./core/made.js";
import { NARROW } from "./core/protocol.js";

const KEY = "walk";

export class Walk {
  /** @param {any[]} steps */
  constructor(steps) {
    this.steps = steps;
    this.box = made("section", { class: "walk", role: "region", "aria-label": "The beginner's walk", tabindex: -1 });
    document.body.append(this.box);
    this.go(kept());
  }

  /** @param {number} at */
  go(at) {
    if (at >= this.steps.length) return this.end();
    this.at = Math.max(0, at);
    keep(this.at);
    const step = this.steps[this.at];
    this.point(step.places);
    this.box.replaceChildren(
      made("p", { class: "walk-at" }, `Step ${this.at + 1} of ${this.steps.length}`),
      made("h2", {}, step.title),
      made("p", { class: "walk-does" }, step.does),
      made("p", { class: "walk-look" }, step.look),
      made("p", { class: "walk-words" }, this.at > 0 && word("back", () => this.go(this.at - 1)), word(this.at + 1 < this.steps.length ? "next" : "done", () => this.go(this.at + 1)), word("end the walk", () => this.end())),
    );
    this.aside();
    this.box.focus({ preventScroll: true });
  }

  /** What is pointed at is never covered, where it can be helped. */
  aside() {
    this.box.classList.remove("is-left");
    const place = document.querySelector(".walked");
    if (!place) return;
    const covers = () => {
      const [one, other] = [place.getBoundingClientRect(), this.box.getBoundingClientRect()];
      const wide = Math.min(one.right, other.right) - Math.max(one.left, other.left);
      const tall = Math.min(one.bottom, other.bottom) - Math.max(one.top, other.top);
      return Math.max(0, wide) * Math.max(0, tall);
    };
    const right = covers();
    this.box.classList.add("is-left");
    if (covers() >= right) this.box.classList.remove("is-left");
  }

  /** @param {string[]} places */
  point(places) {
    document.querySelectorAll(".walked").forEach((one) => one.classList.remove("walked"));
    const place = places.map((id) => document.getElementById(id)).find((one) => one && one.getClientRects().length);
    place?.classList.add("walked");
    // On a phone the box lies over the lower half: what is pointed at goes to the top.
    place?.scrollIntoView({ block: innerWidth < NARROW ? "start" : "nearest" });
  }

  end() {
    this.point([]);
    this.box.remove();
    keep(0);
    history.replaceState(null, "", location.pathname);
  }
}

function kept() {
  try {
    return Number(sessionStorage.getItem(KEY)) || 0;
  } catch {
    return 0;
  }
}

/** @param {number} at */
function keep(at) {
  try {
    sessionStorage.setItem(KEY, String(at));
  } catch {
    // Storage may be forbidden: the walk then begins anew on each page.
  }
}

let walk = null;
async function begin() {
  if (location.hash !== "#walk" || walk?.box.isConnected) return;
  const answer = await fetch("/walk/steps");
  if (answer.ok) walk = new Walk(await answer.json());
}
addEventListener("hashchange", begin);
begin();
