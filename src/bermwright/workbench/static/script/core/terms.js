/** @file Terms of the trade explained on hover, on focus and on a tap; the words come from the glossary. */

import { made } from "./made.js";

/** Where a term may be marked. */
const MARKED = ".says, .why, .advice, .line-says, .asks, .asks-why, .asks-how, .remedy-why, .value > label, .next, .lead";
const DATA = "/glossary";

export class Terms {
  constructor() {
    /** @type {Map<string, {term: string, text: string}>} */
    this.known = new Map();
    this.box = made("div", { class: "term-box", id: "term-box", role: "tooltip", hidden: true });
    document.body.append(this.box);
    for (const [kind, act] of /** @type {const} */ ([["pointerover", "over"], ["pointerout", "out"], ["focusin", "over"], ["focusout", "out"], ["click", "tap"]])) {
      document.addEventListener(kind, (event) => this[act](/** @type {any} */ (event)));
    }
    document.addEventListener("keydown", (event) => event.key === "Escape" && this.hide());
  }

  async load() {
    const answer = await fetch(DATA);
    if (!answer.ok) return;
    for (const one of await answer.json()) {
      for (const form of [one.term, ...(one.forms ?? [])]) this.known.set(form.toLowerCase(), one);
    }
    if (!this.known.size) return;
    const forms = [...this.known.keys()].sort((a, b) => b.length - a.length).map(escaped);
    this.pattern = new RegExp(`(?<![\\p{L}\\[_.-])(${forms.join("|")})(?![\\p{L}_\\]-])`, "giu");
    this.mark(document.body);
    this.watch = new MutationObserver((news) => news.forEach((one) => one.addedNodes.forEach((node) => node instanceof HTMLElement && this.mark(node))));
    this.watch.observe(document.body, { childList: true, subtree: true });
  }

  /** Mark the first use of each term inside. @param {HTMLElement} root */
  mark(root) {
    const places = [...root.querySelectorAll(MARKED), ...(root.matches(MARKED) ? [root] : [])];
    for (const place of places) {
      if (place.hasAttribute("data-terms")) continue;
      place.setAttribute("data-terms", "");
      this.markOne(place);
    }
  }

  /** @param {Element} place */
  markOne(place) {
    const inButton = Boolean(place.closest("button, label"));
    const seen = new Set();
    for (const node of texts(place)) {
      const pieces = node.data.split(/** @type {RegExp} */ (this.pattern));
      if (pieces.length < 2) continue;
      node.replaceWith(...pieces.map((piece, at) => this.piece(piece, at % 2 === 1, seen, inButton)));
    }
  }

  /** @param {string} text @param {boolean} isTerm @param {Set<string>} seen @param {boolean} inButton */
  piece(text, isTerm, seen, inButton) {
    const one = isTerm ? this.known.get(text.toLowerCase()) : undefined;
    if (!one || seen.has(one.term)) return document.createTextNode(text);
    seen.add(one.term);
    return made("dfn", { data: { term: one.term.toLowerCase() }, tabindex: inButton ? null : 0, "aria-describedby": "term-box" }, text);
  }

  /** @param {Event} event */
  find(event) {
    return /** @type {any} */ (event.target)?.closest?.("dfn[data-term]");
  }

  /** @param {Event} event */
  over(event) {
    const term = this.find(event);
    if (term) this.show(term);
  }

  /** @param {Event} event */
  out(event) {
    if (this.find(event)) this.hide();
  }

  /** @param {Event} event */
  tap(event) {
    const term = this.find(event);
    if (term) this.show(term);
    else this.hide();
  }

  /** @param {HTMLElement} term */
  show(term) {
    const one = this.known.get(term.dataset.term ?? "");
    if (!one) return;
    this.box.replaceChildren(made("b", {}, one.term), ` ${one.text}`);
    this.box.hidden = false;
    const place = term.getBoundingClientRect();
    const wide = this.box.offsetWidth;
    const tall = this.box.offsetHeight;
    const over = place.bottom + tall + 12 > innerHeight;
    this.box.style.left = `${Math.max(8, Math.min(place.left, innerWidth - wide - 8))}px`;
    this.box.style.top = `${over ? place.top - tall - 6 : place.bottom + 6}px`;
  }

  hide() {
    this.box.hidden = true;
  }
}

/** @param {Element} place @returns {Text[]} */
function texts(place) {
  const walk = document.createTreeWalker(place, NodeFilter.SHOW_TEXT);
  const list = [];
  while (walk.nextNode()) list.push(/** @type {Text} */ (walk.currentNode));
  return list.filter((node) => !node.parentElement?.closest("dfn, code, input, textarea"));
}

/** @param {string} text */
function escaped(text) {
  return text.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");
}
