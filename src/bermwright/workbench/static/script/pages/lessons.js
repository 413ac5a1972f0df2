/** @file A lesson: predict, then reveal. */

import { made } from "../core/made.js";
import { sign } from "../core/signs.js";
import { askInSteps, drawAll, say } from "./common.js";

const form = /** @type {HTMLFormElement | null} */ (document.getElementById("predict"));
drawAll();

if (form) {
  const button = form.querySelector("button");
  form.addEventListener("change", () => {
    button.disabled = false;
    say("working", "");
  });
  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    button.disabled = true;
    say("wrong", "");
    for (const choice of form.querySelectorAll("input")) choice.disabled = true;
    try {
      const found = await askInSteps(`/lessons/${form.dataset.lesson}/reveal`, {}, (step) => say("working", `${step} …`));
      say("working", "");
      reveal(found, form.elements.answer.value);
    } catch (fault) {
      say("working", "");
      say("wrong", fault.message);
      button.disabled = false;
      for (const choice of form.querySelectorAll("input")) choice.disabled = false;
    }
  });
}

function reveal(found, chosen) {
  const right = chosen === found.right;
  for (const choice of form.querySelectorAll(".choice")) choice.classList.toggle("is-right", choice.querySelector("input").value === found.right);
  say("verdict-of-answer", right ? "You saw it." : `It was ${found.right}: ${found.answers[found.right]}`);
  say("failed", found.failed);
  say("remedy", found.remedy);
  findings("found-as-built", found.found["as built"]);
  findings("found-twin", found.found.twin);
  document.getElementById("sources").replaceChildren(source("The failure", found.source), source("The remedy", found.remedy_source));
  for (const place of document.querySelectorAll("[data-later]")) {
    place.dataset.drawing = place.dataset.later;
    delete place.dataset.later;
  }
  document.getElementById("revealed").hidden = false;
  drawAll(document.getElementById("revealed"));
  document.getElementById("revealed").scrollIntoView({ behavior: "auto", block: "start" });
}

function findings(id, list) {
  const shown = list.slice(0, 5).map((one) => made("li", { class: "lesson-finding" }, sign(one.verdict, 22), made("span", {}, made("span", { class: `verdict-word is-${one.verdict}` }, one.verdict.toUpperCase()), " ", made("span", { class: "says" }, one.says), made("span", { class: "under" }, [one.part, one.stage].filter(Boolean).join(", ")))));
  if (list.length > 5) shown.push(made("li", { class: "quiet" }, `and ${list.length - 5} more.`));
  document.getElementById(id).replaceChildren(...shown);
}

function source(what, one) {
  return made("li", {}, made("b", {}, `${what}: `), `${one.work}, ${one.place} (${one.provenance}). `, one.address ? made("span", { class: "figure" }, one.address) : null);
}
