/** @file One sentence with its sign over the drawing, the next step in italics, and what the whole house says. */

import { at, made, word } from "../core/made.js";
import { sign, slug } from "../core/signs.js";
import { nameOf, stagesOf } from "../drawing/building.js";

export class Verdict {
  /**
   * @param {import("../core/store.js").Store} store
   * @param {{open: (id: any) => void, stop: (job: number) => void, noWeek: () => void}} ways
   */
  constructor(store, ways) {
    this.store = store;
    this.ways = ways;
    store.on(["scene", "axes", "found", "revision", "running", "atStage", "held", "opened"], (now) => this.draw(now));
  }

  /** The whole house, until somebody looks at one stage or moves something. @param {any} now */
  draw(now) {
    const one = now.atStage || now.held || !now.found;
    const open = now.held ? undefined : now.found?.findings.find((/** @type {any} */ each) => each.id === now.opened);
    const shown = open ? { verdict: open.verdict, text: open.text, next: open.advice } : one ? now.scene?.sentence : now.found.headline;
    if (!shown) return this.unread(now.revision);
    at("verdict").dataset.verdict = slug(shown.verdict); // no class: the walk marks this place with one
    at("verdict-sign").replaceChildren(sign(shown.verdict, 34));
    if (at("verdict-text").textContent !== shown.text) at("verdict-text").textContent = shown.text;
    at("verdict-next").replaceChildren(...this.next(shown, now, Boolean(one)));
    at("where").replaceChildren(...this.where(now, Boolean(one)));
    return undefined;
  }

  /** A file that could never be read: nothing can be drawn, and this says so. @param {any} revision */
  unread(revision) {
    const count = revision?.mistakes?.length;
    if (!count) return;
    at("verdict-sign").replaceChildren(sign("unknown", 34));
    at("verdict-text").textContent = `${count} mistake${count > 1 ? "s stand" : " stands"} in the file: nothing can be drawn yet.`;
    at("verdict-next").textContent = "Put it right below; each line says what is allowed.";
  }

  /** @param {any} shown @param {any} now @param {boolean} one */
  next(shown, now, one) {
    const pieces = [shown.next ?? ""];
    const first = now.found?.findings?.[0];
    if (!one && first?.mendable) pieces.push(" ", word("What would hold?", () => this.ways.open(first.id), { class: "word" }));
    return pieces;
  }

  /** Where one is, and never less than the truth about the rest. @param {any} now @param {boolean} one */
  where(now, one) {
    const lines = [one ? stageLine(now) : null, freshness(now), this.week(now)];
    if (now.running && !now.held) lines.push(this.running(now.running));
    if (one) lines.push(now.found ? this.house(now.found) : unchecked());
    return lines.filter(Boolean).map((line) => made("span", {}, line));
  }

  /** The step of the full run on one line: the drawing below must not jump with each of them. @param {any} job */
  running(job) {
    const step = made("span", { class: "running-step", title: job.step }, job.step);
    return made("span", { class: "running" }, step, word("stop", () => this.ways.stop(job.job), { class: "word is-small" }));
  }

  /** The week whose ground is shown, and how to leave it out again. @param {any} now */
  week(now) {
    const week = now.axes?.year?.weeks?.find((/** @type {any} */ one) => one.week === now.scene?.week);
    return week ? made("span", {}, `the ground in ${week.label} `, word("without", this.ways.noWeek, { class: "word is-small", "aria-label": "leave the ground of that week out of the drawing" })) : null;
  }

  /** @param {any} found */
  house(found) {
    const { verdict } = found.headline;
    const { fails, unknown } = found.counts ?? {};
    const text = [fails && `${fails} fail`, unknown && `${unknown} unknown`].filter(Boolean).join(", ");
    return made("span", { class: `house-line is-${slug(verdict)}` }, sign(verdict, 16), " ", word("whole house", () => this.store.set({ atStage: false })), ` ${text || verdict}`);
  }
}

/** Before the first full run nothing is known of the whole. */
function unchecked() {
  return made("span", { class: "house-line" }, sign("unknown", 16), " whole house not checked yet");
}

/** @param {any} now */
function stageLine(now) {
  const stages = stagesOf(now);
  const place = stages.findIndex((/** @type {any} */ one) => one.stage === now.scene?.stage);
  const one = stages[place];
  const stop = one?.stop?.length ? `, stop at ${one.stop[0]}` : "";
  return one ? `stage ${place + 1} of ${stages.length}, ${nameOf(one)}${stop}` : "";
}

/** @param {any} now */
function freshness(now) {
  if (now.held || now.scene?.seq) return "provisional: this stage and load only";
  if (now.scene?.provisional && now.scene.stale_from !== null) return `provisional: checks are from revision ${now.scene.stale_from}`;
  if (now.scene?.provisional) return "provisional: the full run follows";
  return "";
}
