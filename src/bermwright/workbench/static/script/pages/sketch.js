/** @file From paper: a picture that never leaves the browser, marks on it, and the curve that follows them. */

import { drawn, made } from "../core/made.js";
import { ask, say, told, units } from "./common.js";

const LARGEST = 20_000_000;
const KINDS = ["image/png", "image/jpeg"];
const STEP = 1 / 200;
/** How far a hand may slip in a tap (px). */
const TAP = 8;
const HINTS = {
  ends: "Mark both ends of the length that you know. A mark can be moved.",
  points: "Mark the curve from one foot over the crown to the other, about ten points. A mark can be moved.",
};

const paper = /** @type {HTMLElement} */ (document.getElementById("paper"));
const state = { mark: "ends", ends: [], points: [], order: [], cross: [0.5, 0.5], size: [0, 0], offer: 0, found: null };

document.getElementById("photo").addEventListener("change", (event) => openPhoto(event.target.files[0]));
document.getElementById("points-file").addEventListener("change", (event) => openPoints(event.target.files[0]));
for (const button of document.querySelectorAll("[data-mark]")) button.addEventListener("click", () => choose(button.dataset.mark));
document.getElementById("undo-mark").addEventListener("click", takeBack);
document.getElementById("clear-marks").addEventListener("click", clear);
document.getElementById("fit").addEventListener("click", fit);
document.getElementById("take")?.addEventListener("click", take);
document.getElementById("begin")?.addEventListener("click", () => {
  sessionStorage.setItem("sketch", JSON.stringify(state.found.offers[state.offer].measures));
  location.assign("/start#questions-head");
});

async function openPhoto(file) {
  if (!file) return;
  say("wrong", "");
  if (!KINDS.includes(file.type)) return say("wrong", `${file.name} is no PNG or JPEG. Save the picture as one of them.`);
  if (file.size > LARGEST) return say("wrong", `${file.name} has ${Math.round(file.size / 1e6)} MB; at most 20 MB are read. Save it smaller.`);
  const picture = new Image();
  picture.src = URL.createObjectURL(file);
  try {
    await picture.decode();
  } catch {
    URL.revokeObjectURL(picture.src);
    return say("wrong", `${file.name} is no picture that can be shown. Save it again as PNG or JPEG.`);
  }
  lay(picture, picture.naturalWidth, picture.naturalHeight);
}

/** Put a picture on the paper; marks are kept in its own dots. */
function lay(picture, wide, tall) {
  state.size = [wide, tall];
  const over = drawn("svg", { class: "marks", viewBox: `0 0 ${wide} ${tall}` });
  picture.alt = "";
  picture.draggable = false;
  paper.replaceChildren(made("div", { class: "under-marks" }, picture, over));
  state.cross = [wide / 2, tall / 2];
  document.getElementById("marking").hidden = false;
  clear();
  choose("ends");
  paper.focus();
}

/** @param {string} mark */
function choose(mark) {
  state.mark = mark;
  for (const button of document.querySelectorAll("[data-mark]")) button.setAttribute("aria-pressed", String(button.dataset.mark === mark));
  hint();
}

function hint() {
  const count = state[state.mark].length;
  document.getElementById("hint").textContent = `${HINTS[state.mark]} ${count ? `${count} marked.` : ""}`;
}

/** A mark that is touched is moved; anywhere else a tap makes a new one. What is drawn changes under the hand, so no click is waited for. */
let down = null;
let moved = null;
paper.addEventListener("pointerdown", (event) => {
  if (!state.size[0] || event.button !== 0) return;
  down = [event.clientX, event.clientY];
  moved = touched(event);
  if (moved) paper.setPointerCapture(event.pointerId);
});

paper.addEventListener("pointermove", (event) => {
  if (!state.size[0]) return;
  state.cross = spot(event);
  if (moved) moved.list[moved.at] = state.cross;
  draw();
});

paper.addEventListener("pointerup", (event) => {
  if (down && !moved && Math.hypot(event.clientX - down[0], event.clientY - down[1]) < TAP) mark(spot(event));
  down = moved = null;
});
paper.addEventListener("pointercancel", () => {
  down = moved = null;
});

/** The mark under the hand, if there is one. */
function touched(event) {
  const box = paper.querySelector("svg").getBoundingClientRect();
  const reach = (event.pointerType === "touch" ? 22 : 9) * (state.size[0] / box.width);
  const [x, y] = spot(event);
  const list = state[state.mark];
  const at = list.findIndex((one) => Math.hypot(one[0] - x, one[1] - y) < reach);
  return at < 0 ? null : { list, at };
}

/** The place under the hand, in dots of the picture. */
function spot(event) {
  const box = paper.querySelector("svg").getBoundingClientRect();
  return [((event.clientX - box.left) / box.width) * state.size[0], ((event.clientY - box.top) / box.height) * state.size[1]];
}

paper.addEventListener("keydown", (event) => {
  const fine = event.shiftKey ? 0.2 : 1;
  const step = state.size[0] * STEP * fine;
  const way = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] }[event.key];
  if (way) state.cross = [0, 1].map((at) => Math.min(state.size[at], Math.max(0, state.cross[at] + way[at] * step)));
  else if (event.key === "Enter" || event.key === " ") mark(state.cross);
  else if (event.key === "Delete" || event.key === "Backspace") takeBack();
  else return;
  event.preventDefault();
  draw();
});

function mark(place) {
  const list = state[state.mark];
  if (state.mark === "ends" && list.length === 2) list.shift();
  list.push(place);
  state.order.push(state.mark);
  if (state.mark === "ends" && list.length === 2) document.getElementById("length").focus({ preventScroll: true });
  if (state.mark === "ends" && list.length === 2) choose("points");
  draw();
  hint();
}

function takeBack() {
  const last = state.order.pop();
  if (last) state[last].pop();
  draw();
  hint();
}

function clear() {
  state.ends = [];
  state.points = [];
  state.order = [];
  draw();
  hint();
}

function draw() {
  const over = paper.querySelector("svg");
  if (!over) return;
  const unit = state.size[0] / 500;
  const [x, y] = state.cross;
  over.replaceChildren(
    state.ends.length === 2 && drawn("line", { x1: state.ends[0][0], y1: state.ends[0][1], x2: state.ends[1][0], y2: state.ends[1][1], class: "known" }),
    ...state.ends.map((one) => drawn("path", { d: `M${one[0]} ${one[1] - 8 * unit}v${16 * unit}M${one[0] - 8 * unit} ${one[1]}h${16 * unit}`, class: "end" })),
    state.points.length > 1 && drawn("polyline", { points: state.points.map((one) => one.join(",")).join(" "), class: "along" }),
    ...state.points.map((one) => drawn("circle", { cx: one[0], cy: one[1], r: 4 * unit, class: "point" })),
    drawn("path", { d: `M${x} ${y - 14 * unit}v${10 * unit}M${x} ${y + 4 * unit}v${10 * unit}M${x - 14 * unit} ${y}h${10 * unit}M${x + 4 * unit} ${y}h${10 * unit}`, class: "cross" }),
  );
}

async function fit() {
  say("wrong", "");
  say("working", "Finding the curve …");
  const data = {
    ends: state.ends,
    points: state.points,
    length: document.getElementById("length").value,
    mirror: document.getElementById("mirror").checked,
    level: document.getElementById("level").checked,
    ground: document.getElementById("ground")?.checked ?? false,
    vault: Number(document.getElementById("vault")?.value ?? 0),
  };
  try {
    show(await ask("/sketch/fit", data));
  } catch (fault) {
    say("wrong", fault.message);
    document.getElementById("wrong").scrollIntoView({ block: "center" });
  }
  say("working", "");
}

async function openPoints(file) {
  if (!file) return;
  say("wrong", "");
  const form = new FormData();
  form.set("file", file);
  form.set("known", document.getElementById("points-known").value);
  try {
    show(await told(await fetch(`/sketch/read?units=${units()}`, { method: "POST", body: form })));
  } catch (fault) {
    say("wrong", fault.message);
  }
}

function show(found) {
  state.found = found;
  state.offer = 0;
  document.getElementById("found").hidden = false;
  const remarks = [...found.remarks];
  if (found.outliers.length) remarks.push(`Left out, far from the curve: point ${found.outliers.join(", ")}. Mark it again.`);
  document.getElementById("remarks").replaceChildren(...remarks.map((text) => made("li", { class: "says" }, text)));
  choice();
  document.getElementById("found").scrollIntoView({ block: "start" });
}

function choice() {
  const { found, offer } = state;
  const pick = (at) => () => {
    state.offer = at;
    choice();
  };
  document.getElementById("offers").replaceChildren(
    ...found.offers.map((one, at) =>
      made("label", { class: "choice" }, made("input", { type: "radio", name: "offer", checked: at === offer, on: { change: pick(at) } }), made("span", {}, made("b", {}, one.says), made("span", { class: "under" }, `points lie ${one.spread} off on average, ${one.largest} at most${one.likely > 0.005 ? `; ${Math.round(100 * one.likely)} % likely beside the others` : ""}`))),
    ),
  );
  document.getElementById("lines").textContent = found.offers[offer].measures.map(([key, value]) => `${key} = "${value}"`).join("\n");
  picture(found, found.offers[offer]);
}

/** The points and the curve, and how far each point lies off, ten times as large. */
function picture(found, offer) {
  const xs = [...offer.line, ...found.points].map(([x]) => x);
  const zs = [...offer.line, ...found.points].map(([, z]) => z);
  const [left, right, top] = [Math.min(...xs), Math.max(...xs), Math.max(...zs)];
  const wide = right - left;
  const unit = wide / 300;
  const place = ([x, z]) => `${x},${-z}`;
  document.getElementById("fitted").replaceChildren(
    drawn(
      "svg",
      { viewBox: `${left - 10 * unit} ${-top - 10 * unit} ${wide + 20 * unit} ${top + 22 * unit}`, role: "img", "aria-label": offer.says },
      drawn("line", { x1: left, x2: right, y1: 0, y2: 0, class: "known" }),
      drawn("polyline", { points: offer.line.map(place).join(" "), class: "curve" }),
      ...found.points.map((one, at) => drawn("circle", { cx: one[0], cy: -one[1], r: 1.8 * unit, class: found.outliers.includes(at + 1) ? "point is-off" : "point" })),
    ),
  );
}

async function take() {
  say("wrong", "");
  try {
    const measures = state.found.offers[state.offer].measures;
    location.assign((await ask("/sketch/take", { vault: Number(document.getElementById("vault").value), measures })).go);
  } catch (fault) {
    say("wrong", fault.message);
    document.getElementById("wrong").scrollIntoView({ block: "center" });
  }
}
