/** @file A document of the server as sections of a page: drawings first, then words and tables. Computes nothing. */

import { made, word } from "../core/made.js";
import { sign } from "../core/signs.js";
import { parsed } from "./common.js";

/** Drawings of a section that stand together from so many on: one is in hand, the others lie beside it. */
const PILE = 2;
/** Sections stay closed at first on a narrow screen, but for the first ones. */
const NARROW = 700;
/** A table with more rows than this shows its first ones. */
const LONG = 24;
const SHOWN = 16;

/** @param {any[]} sections */
export function sectionsOf(sections) {
  for (const place of laid.keys()) if (!place.isConnected) laid.delete(place);
  return sections.map((one, at) => section(one, at < 2 || window.innerWidth > NARROW));
}

function section(one, open) {
  const inside = [one.lead.length ? made("p", { class: "next" }, ...spoken(one.lead)) : null, ...blocks(one.blocks)];
  if (!one.title) return made("section", { class: "made-section is-bare" }, ...inside);
  if (!inside.some(Boolean)) return made("h2", { class: "made-head" }, one.title);
  return made("section", { class: "made-section" }, made("details", { open }, made("summary", {}, made("h2", {}, one.title)), ...inside));
}

/** Blocks in their order; drawings that follow each other as one pile. */
function blocks(list) {
  const found = [];
  for (let at = 0; at < list.length; at++) {
    const pile = [];
    while (list[at]?.kind === "drawing") pile.push(list[at++]);
    if (pile.length) found.push(pile.length >= PILE ? piled(pile) : drawing(pile[0]));
    if (list[at]) found.push(block(list[at]));
  }
  return found;
}

function block(one) {
  const kinds = { para, points, table, notice, headline, finding, sign: signed };
  return kinds[one.kind]?.(one) ?? null;
}

/** Runs of text with their voices. @param {string[][]} runs */
export function spoken(runs) {
  return runs.flatMap(([text, voice]) => (voice === "plain" ? withCode(text) : made(voice === "strong" ? "b" : "em", {}, ...withCode(text))));
}

/** Words between backticks are typed somewhere: they are set as such. @param {string} text */
export function withCode(text) {
  return text.split("`").map((part, at) => (at % 2 ? made("code", {}, part) : part));
}

function para(one) {
  return made("p", { class: one.small ? "small-print" : "says" }, ...spoken(one.runs));
}

function points(one) {
  return made(one.numbered ? "ol" : "ul", { class: one.numbered ? "steps" : "plain" }, ...one.items.map((runs) => made("li", { class: "says" }, made("span", {}, ...spoken(runs)))));
}

function notice(one) {
  const word_ = one.guards === "stop" ? "STOP" : "CAUTION";
  return made("aside", { class: `guard is-${one.guards}` }, made("p", { class: "guard-word" }, word_), ...one.lines.map((runs) => made("p", {}, ...spoken(runs))));
}

function headline(one) {
  return made("p", { class: "judged-line" }, sign(one.verdict, 26), made("span", { class: "says" }, ...spoken(one.runs)));
}

function finding(one) {
  return made("p", { class: "judged-line" }, sign(one.verdict, 22), made("span", { class: "says" }, `${one.text} ${one.ratio}`));
}

function signed(one) {
  return made("p", { class: "quiet" }, one.labels.join(", "));
}

function table(one) {
  const look = (at) => (one.align[at] === "r" ? "is-right" : "");
  const cell = (runs, at) => {
    if (runs === null) return made("td", { class: look(at), data: { head: one.head[at] } }, made("span", { class: "blank", "aria-label": "to be written in" }));
    const inside = spoken(runs);
    return made("td", { class: look(at), data: { head: one.head[at] ?? "" } }, one.strong.includes(at) ? made("b", {}, ...inside) : inside);
  };
  const head = one.head.some(Boolean) ? made("thead", {}, made("tr", {}, ...one.head.map((text, at) => made("th", { scope: "col", class: look(at) }, text)))) : null;
  const body = (list, more = {}) => made("tbody", more, ...list.map((cells) => made("tr", {}, ...cells.map(cell))));
  const long = one.rows.length > LONG;
  const rest = long ? body(one.rows.slice(SHOWN), { hidden: true }) : null;
  const caption = one.caption.length ? made("caption", {}, ...spoken(one.caption)) : null;
  return made("div", { class: "wide-table made-table" }, made("table", {}, caption, head, body(long ? one.rows.slice(0, SHOWN) : one.rows), rest), rest ? unfold(rest, one.rows.length - SHOWN) : null);
}

/** The word that opens the rest of a long table. */
function unfold(rest, count) {
  const more = word(`${count} more rows`, () => {
    rest.hidden = !rest.hidden;
    more.textContent = rest.hidden ? `${count} more rows` : "fewer rows";
    more.setAttribute("aria-expanded", String(!rest.hidden));
  }, { class: "word is-small unfold", "aria-expanded": "false" });
  return more;
}

// ---------------------------------------------------------------- drawings

/** Every drawing of the page and where it lies, so that a change of the light reaches it. */
const laid = new Map();

document.addEventListener("light", () => {
  for (const [place, one] of laid) {
    if (place.isConnected) lay(place, one);
    else laid.delete(place);
  }
});

function lay(place, one) {
  laid.set(place, one);
  const light = document.documentElement.dataset.light === "lamp" ? "lamp" : "day";
  place.replaceChildren(parsed(one[light]));
}

function drawing(one) {
  const place = made("div", { class: "laid-drawing" });
  place.style.setProperty("--wide", String(one.width));
  lay(place, one);
  const closer = word("closer", () => {
    const near = figure.classList.toggle("is-near");
    closer.textContent = near ? "the whole of it" : "closer";
    closer.setAttribute("aria-expanded", String(near));
  }, { class: "word is-small closer", "aria-expanded": "false" });
  const stand = made("div", { class: "stand-drawing", tabindex: "0", role: "group", "aria-label": one.title || "drawing" }, place);
  const figure = made("figure", { class: "made-drawing" }, stand, made("figcaption", {}, made("span", { class: "quiet" }, ...(one.caption.length ? spoken(one.caption) : [one.title])), " ", closer));
  return figure;
}

/** One drawing in hand, all of them as small ones over it. */
function piled(list) {
  const hand = made("div", { class: "pile-hand" });
  const choose = (at) => {
    hand.replaceChildren(drawing(list[at]));
    buttons.forEach((button, number) => button.setAttribute("aria-pressed", String(number === at)));
  };
  const buttons = list.map((one, at) => {
    const small = made("span", { class: "pile-small", "aria-hidden": "true" });
    lay(small, one);
    return made("button", { type: "button", class: "pile-word", on: { click: () => choose(at) } }, small, made("span", { class: "pile-title" }, one.title || `drawing ${at + 1}`));
  });
  const pile = made("div", { class: "pile" }, made("div", { class: "pile-list", role: "group", "aria-label": "Drawings of this section" }, ...buttons), hand);
  choose(0);
  return pile;
}

/** A sign with its sentence, for the head of a leaf. @param {string} verdict @param {string} says */
export function verdictLine(verdict, says) {
  return made("p", { class: `leaf-verdict${verdict === "fails" ? " is-fails" : ""}` }, verdict ? sign(verdict, 28) : null, made("span", { class: "says" }, says));
}
