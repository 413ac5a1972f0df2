/** @file What the pages beside the drawing share: drawings in the light of the page, questions to the server. */

import { Terms } from "../core/terms.js";

/** @param {string} address */
export async function drawingFrom(address) {
  const light = document.documentElement.dataset.light ?? "day";
  const answer = await fetch(`${address}${address.includes("?") ? "&" : "?"}light=${light}&units=${units()}`);
  if (!answer.ok) return null;
  return parsed(await answer.text());
}

/** An SVG text as an element that fills its place. @param {string} text */
export function parsed(text) {
  const drawing = document.importNode(new DOMParser().parseFromString(text, "image/svg+xml").documentElement, true);
  drawing.removeAttribute("width");
  drawing.removeAttribute("height");
  return drawing;
}

/** Fill every place that names a drawing, and again when the light changes. @param {ParentNode} [root] */
export async function drawAll(root = document) {
  await Promise.all(
    [...root.querySelectorAll("[data-drawing]")].map(async (place) => {
      const drawing = await drawingFrom(/** @type {HTMLElement} */ (place).dataset.drawing ?? "");
      if (drawing) place.replaceChildren(drawing);
    }),
  );
}
document.addEventListener("light", () => drawAll());

/** @param {string} address @param {any} data */
export async function ask(address, data) {
  const asked = await fetch(`${address}?units=${units()}`, { method: "POST", headers: { "content-type": "application/json" }, body: JSON.stringify(data) });
  return told(asked);
}

/** What the server said, or the error that it explained. @param {Response} answer */
export async function told(answer) {
  const text = await answer.text();
  let data;
  try {
    data = JSON.parse(text);
  } catch {
    throw new Error(text.slice(0, 300) || "The server does not answer.");
  }
  if (data.wrong) throw new Error(data.wrong);
  return data;
}

/** An answer that tells its steps; gives what was found at last. @param {string} address @param {any} data @param {(step: string) => void} step */
export async function askInSteps(address, data, step) {
  const answer = await fetch(`${address}?units=${units()}`, { method: "POST", headers: { "content-type": "application/json" }, body: JSON.stringify(data) });
  if (!answer.ok) return told(answer);
  const reader = answer.body.pipeThrough(new TextDecoderStream()).getReader();
  let rest = "";
  let found = null;
  for (;;) {
    const { value, done } = await reader.read();
    if (done && found) return found;
    if (done) throw new Error("The server stopped before it had an answer.");
    rest += value;
    const lines = rest.split("\n");
    rest = lines.pop() ?? "";
    for (const line of lines) {
      const news = JSON.parse(line);
      if (news.step) step(news.step);
      if (news.wrong) throw new Error(news.wrong);
      if (news.done) found = news.done;
    }
  }
}

/** Say what is wrong in its place, or nothing. @param {string} id @param {string} text */
export function say(id, text) {
  const place = /** @type {HTMLElement} */ (document.getElementById(id));
  place.textContent = text;
  place.hidden = !text;
}

export function units() {
  try {
    return localStorage.getItem("units") ?? "metric";
  } catch {
    return "metric";
  }
}

new Terms().load().catch(() => undefined);
