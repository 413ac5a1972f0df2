/** @file The workbench: joins the line, and puts each view where it belongs. Start reading here. */

import { Jobs } from "./desk/jobs.js";
import { Leaves } from "./desk/leaves.js";
import { Notices } from "./desk/notices.js";
import { Parts } from "./desk/parts.js";
import { TitleBlock } from "./desk/titleblock.js";
import { Verdict } from "./desk/verdict.js";
import { Writing } from "./desk/writing.js";
import { at, made, word } from "./core/made.js";
import { Store } from "./core/store.js";
import { Terms } from "./core/terms.js";
import { Wire } from "./core/wire.js";
import { Axes } from "./drawing/axes.js";
import { ask as askRemedies } from "./findings/remedies.js";
import { stagesOf } from "./drawing/building.js";
import { Section } from "./drawing/section.js";
import { Steppers } from "./drawing/steppers.js";
import { casesOf } from "./drawing/storm.js";
import { Views } from "./drawing/views.js";

const store = new Store({ leaf: "findings", opened: null, line: "joining", mends: {}, light: document.documentElement.dataset.light, units: kept("units", "metric") });
const wire = new Wire("/live");

const parts = new Parts(wire, store);
const section = new Section(wire, store, (place) => parts.choose(place));
const views = new Views(wire, store, (place) => parts.choose(place));
const writing = new Writing(wire, store, { open: () => showWriting(true), close: () => showWriting(false) });
const jobs = new Jobs(wire, store, (message) => writing.read(message));
const leaves = new Leaves(wire, store, { parts, write: () => writing.open(), look: lookAtFinding });

new Verdict(store, { open: whatWouldHold, stop: (job) => wire.send({ say: "stop", job }), noWeek: () => goWeek(null) });
new Axes(at("axes"), store, { stage: goStage, week: goWeek, storm: goCase });
new Steppers(section, store, goStage);
new TitleBlock(wire, store, { light: turnLight, units: turnUnits, job: (what) => jobs.begin(what), vault: (vault) => wire.send({ say: "look", vault, stage: null, case: null }) });
new Notices(wire, store, { write: (line) => writing.open(line), compare: () => writing.compare() });
new Terms().load().catch(() => undefined);

wire.on("revision", (revision) => rejoined(revision));
wire.on("handles", (handles) => store.set({ handles }));
wire.on("axes", (axes) => store.set({ axes }));
wire.on("found", (found) => store.set({ found, opened: sameFinding(found) }));
wire.on("wrong", (wrong) => store.set({ wrong: wrong.mistakes?.[0] }));
wire.join(() => ({ say: "hello", theme: store.now.light, units: store.now.units, ...section.size() }));

/** The revision that the server is at; after joining again, changes that waited are looked at first. @param {any} revision */
function rejoined(revision) {
  const before = store.now.revision;
  if (before && before.file !== revision.file) return location.reload(); // another house was laid on the desk
  store.set({ revision, readonly: revision.readonly });
  if (revision.mistakes.length && !store.now.scene && !writing.isOpen) writing.open(revision.mistakes[0].line ?? undefined);
  if (!joinedAgain) return;
  joinedAgain = false;
  const waiting = wire.unsent().filter((one) => one.label !== revision.label && one.label !== revision.undoes);
  if (waiting.length !== wire.unsent().length) wire.forget();
  if (!waiting.length) return;
  wire.waiting = waiting;
  if (before && before.number === revision.number && before.label === revision.label) wire.resend(revision.number);
  else store.set({ waiting });
}
let joinedAgain = true;
wire.on("line", (message) => (joinedAgain = message.state === "open"));

/** @param {number} place */
function goStage(place) {
  const stage = stagesOf(store.now)[place]?.stage;
  if (stage === undefined) return;
  store.set({ atStage: true });
  wire.send({ say: "look", stage });
}

/** The ground in one week, in the drawing. @param {number|null} place */
function goWeek(place) {
  const week = place === null ? null : store.now.axes.year.weeks[place].week;
  store.set({ week });
  wire.send({ say: "look", week });
}

/** @param {number} place */
function goCase(place) {
  const one = casesOf(store.now)[place];
  if (!one) return;
  store.set({ atStage: true });
  wire.send({ say: "look", case: one.case });
}

/** The drawing goes to the place, stage and case of a finding. @param {any} finding */
function lookAtFinding(finding) {
  if (writing.isOpen) writing.close();
  const scene = store.now.scene;
  const vault = finding.spot?.vault ?? scene?.vault;
  const known = stagesOf(store.now).some((/** @type {any} */ one) => one.stage === finding.stage);
  if (!known) return;
  store.set({ atStage: true });
  wire.send({ say: "look", vault, stage: finding.stage, case: finding.case });
}

/** From the sentence over the drawing straight to the changes that would hold. @param {any} id */
function whatWouldHold(id) {
  leaves.open(id);
  const finding = store.now.found.findings.find((/** @type {any} */ one) => one.id === id);
  if (store.now.mends[id]?.revision !== store.now.revision.number) askRemedies(finding, { store, wire });
}

/** The finding that is open stays open where the new run found it too. @param {any} found */
function sameFinding(found) {
  const { opened, found: before } = store.now;
  const old = before?.findings.find((/** @type {any} */ one) => one.id === opened);
  if (!old) return null;
  const same = found.findings.filter((/** @type {any} */ one) => one.rule === old.rule && one.part === old.part);
  const exact = same.find((/** @type {any} */ one) => one.stage === old.stage && one.case === old.case && one.place === old.place);
  return (exact ?? same[0])?.id ?? null;
}

function turnLight() {
  const light = store.now.light === "lamp" ? "day" : "lamp";
  document.documentElement.dataset.light = light;
  keep("light", light);
  store.set({ light });
  document.dispatchEvent(new CustomEvent("light", { detail: light }));
  wire.send({ say: "look", theme: light });
}

function turnUnits() {
  const units = store.now.units === "imperial" ? "metric" : "imperial";
  keep("units", units);
  store.set({ units });
  wire.send({ say: "look", units });
}

/** @param {boolean} open */
function showWriting(open) {
  views.back();
  at("sheet").dataset.shows = open ? "writing" : "section";
  at("big-view").hidden = !open;
  document.dispatchEvent(new CustomEvent("place", { detail: "drawing" }));
}

/** On a phone one place is shown at a time. */
function footWords() {
  const board = document.querySelector(".board");
  const places = [
    ["drawing", "Drawing"],
    ["findings", "Checks"],
    ["parts", "Parts"],
    ["book", "Book"],
  ];
  const go = (/** @type {string} */ place) => {
    if (place === "findings" || place === "parts") leaves.turn(place);
    show(place);
  };
  const show = (/** @type {string} */ place) => {
    if (board?.getAttribute("data-place") === place) return;
    board?.setAttribute("data-place", place);
    draw();
    scrollTo(0, 0);
  };
  const draw = () =>
    at("foot-words").replaceChildren(
      ...places.map(([place, text]) => word(text, () => go(place), { class: "foot-word", "aria-pressed": board?.getAttribute("data-place") === place })),
    );
  draw();
  document.addEventListener("place", (/** @type {any} */ event) => show(event.detail));
}
footWords();

addEventListener("keydown", (event) => {
  if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
  const typing = /** @type {any} */ (event.target)?.closest?.("input, textarea, select");
  if (event.key === "s") wire.send({ say: "keep" });
  else if (!typing && event.key.toLowerCase() === "z") wire.send({ say: event.shiftKey ? "redo" : "undo" });
  else if (!typing && event.key === "y") wire.send({ say: "redo" });
  else return;
  event.preventDefault();
});

let width = section.size().width;
addEventListener("resize", () => {
  const now = section.size();
  if (Math.abs(now.width - width) < 24) return;
  width = now.width;
  wire.send({ say: "look", width: now.width, height: now.height });
});

/** @param {string} name @param {string} otherwise */
function kept(name, otherwise) {
  try {
    return localStorage.getItem(name) ?? otherwise;
  } catch {
    return otherwise;
  }
}

/** @param {string} name @param {string} value */
function keep(name, value) {
  try {
    localStorage.setItem(name, value);
  } catch {
    // Storage may be forbidden: then it lasts as long as this page.
  }
}

// Tests and the curious ask the page what it knows.
Object.assign(window, { workbench: { store, wire, section, made } });
