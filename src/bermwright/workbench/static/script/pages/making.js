/** @file Made by hand: a leaf to look at, its fields, and files to take away. Long work shows its steps and can be stopped. */

import { at, made, word } from "../core/made.js";
import { say, told, units } from "./common.js";
import { sectionsOf, verdictLine, withCode } from "./sections.js";

/** How often an open page asks whether the file has moved on (ms). */
const ASK = 4000;
const BAR = "printer bar";
const form = /** @type {HTMLFormElement | null} */ (document.getElementById("fields"));
const leaf = form?.dataset.leaf;
/** The revision that is shown. @type {number | null} */
let shown = null;
/** What stops the drawing that is under way. @type {AbortController | null} */
let looking = null;

if (form) {
  remembered();
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    look();
  });
  form.addEventListener("change", (event) => {
    keepBar();
    const field = /** @type {any} */ (event.target);
    if (field.matches("select, [type=number], [type=checkbox], [name=across], [name=up], [name=settlement]") && !justMakes(field) && !halfTyped(field)) look();
  });
  for (const button of form.querySelectorAll("[data-take]")) button.addEventListener("click", () => take(/** @type {any} */ (button).dataset.take));
  steppers();
  look();
  setInterval(ask, ASK);
  addEventListener("focus", ask);
}

/** Fields that change only what is taken away. @param {any} field */
function justMakes(field) {
  return ["labels", "band", "full_size", "only", "scale", "metres"].includes(field.name) || (leaf === "compass" && ["across", "up"].includes(field.name));
}

/** Whether of the two measures of a printer only one stands there yet. @param {any} field */
function halfTyped(field) {
  const { across, up } = form.elements;
  return ["across", "up"].includes(field.name) && !across.value !== !up.value;
}

// ---------------------------------------------------------------- asking

/** What the fields say. */
function options() {
  const asked = new URLSearchParams();
  for (const [name, value] of new FormData(/** @type {HTMLFormElement} */ (form))) if (typed(name, String(value))) asked.set(name, String(value));
  const radii = [...form.querySelectorAll(".radii li")].map((line) => [line.querySelector("[data-direction]").value.trim(), line.querySelector("[data-radius]").value.trim()]).filter(([, radius]) => radius);
  if (radii.length) asked.set("radii", radii.map((pair) => pair.join(",")).join("\n"));
  asked.set("units", units());
  return asked;
}

/** Whether a field says anything: of a table more than its head. @param {string} name @param {string} value */
function typed(name, value) {
  const lines = value.split("\n").filter((line) => line.trim());
  return ["levels", "ordinates"].includes(name) ? lines.length > 1 : lines.length > 0;
}

/** An answer that tells its steps. @param {string} address @param {AbortSignal} signal @param {(step: string) => void} step */
async function inSteps(address, signal, step) {
  const answer = await fetch(address, { signal });
  if (!answer.ok || !answer.headers.get("content-type")?.includes("ndjson")) return told(answer);
  const reader = answer.body.pipeThrough(new TextDecoderStream()).getReader();
  let rest = "";
  for (;;) {
    const { value, done } = await reader.read();
    if (done) throw new Error("The server stopped before it had an answer.");
    rest += value;
    const lines = rest.split("\n");
    rest = lines.pop() ?? "";
    for (const line of lines) {
      const news = JSON.parse(line);
      if (news.step) step(news.step);
      if (news.wrong) throw Object.assign(new Error(news.wrong), { mistakes: news.mistakes });
      if (news.stopped) throw new DOMException("stopped", "AbortError");
      if (news.done) return news.done;
    }
  }
}

/** Work with its steps and a word to stop it. @param {string} place @param {string} address @param {AbortController} ends */
async function working(place, address, ends) {
  const line = at(place);
  const step = (text) => line.replaceChildren(made("span", {}, `${text} … `), word("stop", () => ends.abort(), { class: "word" }));
  line.hidden = false;
  step("asked for");
  try {
    return await inSteps(address, ends.signal, step);
  } finally {
    line.replaceChildren();
    line.hidden = true;
  }
}

async function look() {
  looking?.abort();
  const ends = new AbortController();
  looking = ends;
  at("shown").classList.add("is-stale");
  try {
    const found = await working("working", `/making/${leaf}/show?${options()}`, ends);
    wrong(null);
    draw(found);
  } catch (fault) {
    if (looking !== ends) return;
    if (fault.name === "AbortError") rested();
    else wrong(fault);
  }
}

/** The drawing was stopped: say so, with the word that begins it again. */
function rested() {
  const line = at("working");
  line.replaceChildren(made("span", {}, "Stopped. "), word("draw it", look, { class: "word" }));
  line.hidden = false;
}

/** @param {any} fault */
function wrong(fault) {
  say("wrong", fault?.message ?? "");
  at("wrong").replaceChildren(...withCode(fault?.message ?? ""));
  if (fault?.mistakes) at("wrong").append(made("ul", { class: "plain" }, ...fault.mistakes.map(mistake)));
}

/** Where it stands, what stands there, what is allowed and what to do. */
function mistake(one) {
  const where = [one.place, one.line ? `, line ${one.line}` : "", one.value ? ` (${one.value})` : ""].join("");
  return made("li", {}, made("span", { class: "figure" }, where), ` ${one.says}`);
}

function draw(found) {
  shown = found.revision;
  const place = at("shown");
  const open = new Set([...place.querySelectorAll("details[open] > summary")].map((one) => one.textContent));
  const closed = new Set([...place.querySelectorAll("details:not([open]) > summary")].map((one) => one.textContent));
  place.replaceChildren(verdictLine(found.verdict, found.says), ...facts(found.facts), ...sectionsOf(found.sections));
  for (const one of place.querySelectorAll("details")) {
    const name = one.querySelector("summary")?.textContent;
    if (open.has(name)) one.open = true;
    if (closed.has(name)) one.open = false;
  }
  place.classList.remove("is-stale");
  place.hidden = false;
  at("stale").hidden = true;
  at("mark").textContent = found.mark;
}

/** What a leaf says besides. @param {any} known */
function facts(known) {
  if (known.courses) form.elements.course.max = known.courses;
  const lines = [];
  if (known.survey) lines.push(`Surveyed points of ${known.survey} are taken in.`);
  if (known.survey === "") lines.push("No survey: the ground is that of the file. Write [survey] points = \"points.csv\" to take measured points in.");
  if (known.bent?.length) lines.push(`The boards of ${known.bent.join(", ")} are bent: the whole curve is printed instead of pieces.`);
  if (known.ifc === false) lines.push("IFC needs one thing more to be installed: pip install \"bermwright[exchange]\".");
  return lines.map((text) => made("p", { class: "quiet" }, text));
}

// ---------------------------------------------------------------- taking away

/** @param {string} ending */
async function take(ending) {
  const asked = options();
  asked.set("ending", ending);
  const place = at("made");
  place.replaceChildren();
  try {
    const found = await working("making", `/making/${leaf}/make?${asked}`, new AbortController());
    place.replaceChildren(files(found), ...found.says.map((text) => made("p", { class: "quiet" }, text)));
    /** @type {any} */ (place.querySelector("a"))?.focus();
  } catch (fault) {
    place.replaceChildren(made("p", { class: fault.name === "AbortError" ? "quiet" : "wrong" }, fault.name === "AbortError" ? "Stopped; nothing was made." : fault.message));
  }
}

/** The file, or one that holds all of them, with each apart under it. */
function files(found) {
  const link = (name) => made("a", { class: "word", href: `${found.at}${encodeURIComponent(name)}`, download: name }, name);
  const [first, ...rest] = found.files;
  const many = rest.length ? made("details", {}, made("summary", { class: "word is-small" }, `each of the ${rest.length} alone`), made("ul", { class: "file-list" }, ...rest.map((name) => made("li", {}, link(name))))) : null;
  return made("div", { class: "made-files" }, made("p", {}, "made from revision ", made("span", { class: "figure" }, String(found.revision)), ": ", link(first)), many);
}

// ---------------------------------------------------------------- the file moves on

async function ask() {
  if (document.hidden || shown === null) return;
  let now;
  try {
    now = await (await fetch("/making/now")).json();
  } catch {
    return; // the workbench is closed, or will answer the next time
  }
  mistakes(now.mistakes);
  const old = now.revision !== shown;
  at("stale").hidden = !old;
  at("shown").classList.toggle("is-stale", old || Boolean(at("working").textContent));
  if (old && at("stale").dataset.said !== String(now.revision)) {
    at("stale").dataset.said = String(now.revision);
    at("stale").replaceChildren(made("span", {}, `From revision ${shown}; the house is at revision ${now.revision}. `), word("draw it again", look, { class: "word" }));
  }
}

function mistakes(list) {
  const place = at("mistakes");
  place.hidden = !list.length;
  if (list.length) place.querySelector("ul").replaceChildren(...list.map(mistake));
}

// ---------------------------------------------------------------- fields

/** A printer is measured once: its bar is kept by the browser. */
function keepBar() {
  const { across, up } = form.elements;
  if (!across) return;
  try {
    localStorage.setItem(BAR, JSON.stringify([across.value, up.value]));
  } catch {
    // Storage may be forbidden: then it is typed again.
  }
}

function remembered() {
  const { across, up } = form.elements;
  if (!across) return;
  try {
    [across.value, up.value] = JSON.parse(localStorage.getItem(BAR) ?? '["",""]');
  } catch {
    // The same.
  }
}

function steppers() {
  const course = form.elements.course;
  if (!course) return;
  const step = (by) => {
    course.value = String(Math.min(Math.max(Number(course.value) + by, 1), Number(course.max) || 999));
    look();
  };
  at("course-down").addEventListener("click", () => step(-1));
  at("course-up").addEventListener("click", () => step(1));
  at("forget-radii").addEventListener("click", () => {
    for (const one of form.querySelectorAll("[data-radius]")) one.value = "";
    look();
  });
}
