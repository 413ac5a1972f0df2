/** @file Two variants: chosen, run with their steps told, and laid side by side. */

import { made } from "../core/made.js";
import { sign } from "../core/signs.js";
import { askInSteps, parsed, say } from "./common.js";

const form = /** @type {HTMLFormElement} */ (document.getElementById("choose"));
let sections = [];
/** Rows of a table that stand open. */
const SHOWN = 12;

form.addEventListener("submit", async (event) => {
  event.preventDefault();
  say("wrong", "");
  const button = form.querySelector("button");
  button.disabled = true;
  try {
    const data = { before: form.elements.before.value, after: form.elements.after.value };
    show(await askInSteps("/compare/run", data, (step) => say("working", `${step} …`)));
    say("working", "");
  } catch (fault) {
    say("working", "");
    say("wrong", fault.message);
  }
  button.disabled = false;
});

function show(found) {
  const { before, after } = found;
  document.getElementById("judged").replaceChildren(judged("Before", before), judged("After", after));
  table("differences", ["place", before.name, after.name], found.differences.map((one) => [place(one), one.before, one.after]), "Both say the same.");
  table("moved", ["check", before.name, after.name], found.moved.map((one) => [check(one), verdict(one.before, one.ratio_before), verdict(one.after, one.ratio_after)]), "No check says anything else.");
  table("figures", ["quantity", before.name, after.name], found.figures.map((one) => [one.name, one.before, one.after]), "No quantity is another.");
  sections = found.sections;
  drawSections();
  document.getElementById("compared").hidden = false;
}

function drawSections() {
  const light = document.documentElement.dataset.light === "lamp" ? "lamp" : "day";
  const drawn = sections.map((one) => made("figure", { class: "overlay" }, parsed(one[light]), made("figcaption", { class: "quiet" }, one.vault)));
  document.getElementById("sections").replaceChildren(...(drawn.length ? drawn : [made("p", { class: "quiet" }, "No vault of both has a shape that can be drawn.")]));
}
document.addEventListener("light", drawSections);

function judged(word, one) {
  const counts = Object.entries(one.counts).map(([name, count]) => `${count} ${name}`);
  return made("section", { class: "judged" }, made("h2", {}, `${word}: ${one.name}`), made("p", { class: "judged-line" }, sign(one.worst, 28), made("span", { class: "says" }, one.headline)), made("p", { class: "figure" }, counts.join(", ")));
}

function place(one) {
  return made("span", {}, made("b", {}, one.place), made("span", { class: "under" }, one.says));
}

function check(one) {
  return made("span", {}, made("b", {}, one.title), made("span", { class: "under" }, one.part));
}

function verdict(word, ratio) {
  if (!word) return made("span", { class: "quiet" }, "does not come up");
  return made("span", { class: `verdict-word is-${word.replaceAll(" ", "-")}` }, word.toUpperCase(), " ", ratio);
}

function table(id, heads, rows, none) {
  const at = document.getElementById(id);
  if (!rows.length) return at.replaceChildren(made("p", { class: "quiet" }, none));
  const first = rows.slice(0, SHOWN);
  const rest = rows.slice(SHOWN);
  at.replaceChildren(lined(heads, first), rest.length ? made("details", {}, made("summary", { class: "word" }, `${rest.length} smaller ones`), lined(heads, rest)) : "");
}

function lined(heads, rows) {
  return made("table", {}, made("thead", {}, made("tr", {}, ...heads.map((text) => made("th", { scope: "col" }, text)))), made("tbody", {}, ...rows.map((cells) => made("tr", {}, ...cells.map((cell, number) => made("td", { data: { head: number ? heads[number] : "" } }, cell))))));
}
