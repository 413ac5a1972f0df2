/** @file The start page: examples, house files of the folder, and the plain questions. */

import { ask, drawAll, say, units } from "./common.js";

const form = /** @type {HTMLFormElement} */ (document.getElementById("questions"));
const questions = [...form.querySelectorAll(".plain-question")];

for (const button of document.querySelectorAll("[data-example]")) {
  button.addEventListener("click", () => go("/start/example", { name: button.dataset.example }));
}
for (const button of document.querySelectorAll("[data-file]")) {
  button.addEventListener("click", () => go("/start/open", { file: button.dataset.file }));
}

async function go(address, data) {
  say("wrong", "");
  try {
    const answer = await ask(address, data);
    say("said", answer.says ?? "");
    if (address === "/start/begin") sessionStorage.removeItem("sketch");
    if (answer.go) location.assign(answer.go);
  } catch (fault) {
    say("wrong", fault.message);
    document.getElementById("wrong").scrollIntoView({ block: "center" });
  }
}

for (const question of questions) {
  const field = question.querySelector("input, select");
  const unknown = question.querySelector("[data-unknown]");
  const like = question.querySelector("[data-imperial]");
  if (like && units() === "imperial") like.textContent = like.dataset.imperial;
  field.addEventListener("change", () => look(question, field));
  field.addEventListener("input", () => mark(question, false));
  unknown.addEventListener("click", () => {
    field.value = "";
    wrong(question, "");
    mark(question, true);
    next(question)?.focus();
  });
}

/** The answer is read as soon as it is written. */
async function look(question, field) {
  const text = field.value.trim();
  mark(question, false);
  if (!text) return wrong(question, "");
  try {
    await ask("/start/answer", { name: question.dataset.question, text });
    wrong(question, "");
  } catch (fault) {
    wrong(question, fault.message);
  }
}

function wrong(question, text) {
  const field = question.querySelector("input, select");
  const place = question.querySelector(".answer-wrong");
  place.textContent = text;
  place.hidden = !text;
  if (text) field.setAttribute("aria-invalid", "true");
  else field.removeAttribute("aria-invalid");
  count();
}

function mark(question, isUnknown) {
  question.querySelector("[data-unknown]").setAttribute("aria-pressed", String(isUnknown));
  question.classList.toggle("is-unknown", isUnknown);
  const needed = question.querySelector(".answer-needed");
  if (needed) needed.hidden = !isUnknown;
  count();
}

function next(question) {
  return questions[questions.indexOf(question) + 1]?.querySelector("input, select");
}

function count() {
  const answered = questions.filter((one) => one.querySelector("input, select").value.trim()).length;
  document.getElementById("tally").textContent = `${answered} answered, ${questions.length - answered} stay open.`;
}

form.addEventListener("submit", (event) => {
  event.preventDefault();
  const bad = form.querySelector("[aria-invalid]");
  if (bad) return bad.focus();
  const answers = Object.fromEntries(questions.map((one) => [one.dataset.question, one.querySelector("input, select").value.trim()]).filter(([, text]) => text));
  go("/start/begin", { house: form.elements.house.value, file: form.elements.file.value.trim(), answers, measures: sketch });
});

/** A curve that was found in a sketch comes along; span and rise are then answered. */
let sketch = brought();
if (sketch) {
  document.getElementById("sketched-curve").textContent = sketch.map(([key, value]) => `${key} ${value}`).join(", ");
  document.getElementById("sketched").hidden = false;
  for (const [key, value] of sketch) {
    const field = document.getElementById(`answer-${key}`);
    if (field) field.value = value;
  }
  document.getElementById("drop-sketch").addEventListener("click", () => {
    sketch = null;
    sessionStorage.removeItem("sketch");
    document.getElementById("sketched").hidden = true;
  });
}

function brought() {
  try {
    return JSON.parse(sessionStorage.getItem("sketch") ?? "null");
  } catch {
    return null;
  }
}

count();
drawAll();
