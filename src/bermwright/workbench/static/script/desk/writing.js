/** @file The file itself, written by hand: a plain page with line numbers, mistakes marked where they stand. */

import { at, fill, made, word } from "../core/made.js";

export class Writing {
  /**
   * @param {import("../core/wire.js").Wire} wire
   * @param {import("../core/store.js").Store} store
   * @param {{open: () => void, close: () => void}} ways
   */
  constructor(wire, store, ways) {
    this.wire = wire;
    this.store = store;
    this.ways = ways;
    this.host = at("big-view");
    this.isOpen = false;
    wire.on("written", (message) => this.written(message));
    wire.on("differs", (message) => this.differs(message));
    store.on(["revision"], (now) => now.revision && this.moved(now.revision));
  }

  /** @param {number} [line] */
  open(line) {
    this.line = line;
    this.isOpen = true;
    this.ways.open();
    this.host.replaceChildren(made("p", { class: "quiet" }, "Reading the file."));
    this.wire.send({ say: "written" });
  }

  close() {
    this.isOpen = false;
    this.area = null;
    this.ways.close();
  }

  /** @param {any} message */
  written(message) {
    if (!this.isOpen) return;
    this.base = message.number;
    this.before = message.text;
    this.area = made("textarea", {
      class: "writing",
      spellcheck: "false",
      wrap: "off",
      autocomplete: "off",
      "aria-label": `The text of ${message.name}`,
      readonly: Boolean(this.store.now.revision?.readonly),
      value: message.text,
      on: { input: () => this.lines(), scroll: () => this.scrolled(), keydown: (/** @type {any} */ event) => this.key(event) },
    });
    this.gutter = made("div", { class: "gutter", "aria-hidden": "true" });
    this.wrong = made("ul", { class: "writing-wrong", role: "status" });
    this.host.replaceChildren(
      made("header", { class: "big-head" }, made("h2", {}, message.name), this.words()),
      made("div", { class: "writing-page" }, this.gutter, this.area),
      this.wrong,
    );
    this.lines();
    this.goTo(this.line);
  }

  words() {
    if (this.store.now.revision?.readonly) return made("p", {}, word("close", () => this.close(), { class: "word boxed" }));
    return made("p", {}, word("take this text", () => this.send(), { class: "button is-first" }), " ", word("close", () => this.close(), { class: "word boxed" }));
  }

  /** @param {KeyboardEvent} event */
  key(event) {
    if (event.key === "Escape") this.close();
    if (event.key === "Enter" && (event.ctrlKey || event.metaKey)) this.send();
  }

  send() {
    if (!this.area || this.area.value === this.before) return;
    this.wire.send({ say: "text", text: this.area.value, label: "written by hand", base: this.base });
  }

  /** Line numbers, with a mark at every line with a mistake. */
  lines() {
    if (!this.area) return;
    const count = this.area.value.split("\n").length;
    const wrong = new Map((this.store.now.revision?.mistakes ?? []).map((/** @type {any} */ one) => [one.line, one]));
    const rows = Array.from({ length: count }, (_, row) =>
      made("span", { class: wrong.has(row + 1) ? "is-wrong" : "" }, wrong.has(row + 1) ? `× ${row + 1}` : String(row + 1)),
    );
    this.gutter.replaceChildren(...rows);
    this.wrong.replaceChildren(...[...wrong.values()].map((/** @type {any} */ one) => made("li", {}, word(one.line ? `line ${one.line}` : one.place, () => this.goTo(one.line)), ` ${one.place}: ${one.says}`)));
    this.scrolled();
  }

  scrolled() {
    if (this.area) this.gutter.scrollTop = this.area.scrollTop;
  }

  /** @param {number|undefined} line */
  goTo(line) {
    if (!this.area) return;
    this.area.focus({ preventScroll: true });
    if (!line) {
      this.area.setSelectionRange(0, 0);
      this.area.scrollTop = 0;
      return;
    }
    const before = this.area.value.split("\n").slice(0, line - 1).join("\n").length + (line > 1 ? 1 : 0);
    const end = this.area.value.indexOf("\n", before);
    this.area.setSelectionRange(before, end < 0 ? this.area.value.length : end);
    this.area.scrollTop = Math.max(0, (line - 6) * 18);
  }

  /** @param {any} message */
  moved(message) {
    if (!this.isOpen || !this.area) return;
    if (this.area.value === this.before || message.label === "written by hand") {
      this.base = message.number;
      this.before = this.area.value;
    }
    this.lines();
  }

  /** A text that was made, such as the quantities. @param {any} message */
  read(message) {
    this.isOpen = true;
    this.area = null;
    this.ways.open();
    const file = message.url ? made("a", { class: "word", href: message.url, download: message.name }, message.name) : null;
    fill(
      this.host,
      made("header", { class: "big-head" }, made("h2", {}, `Revision ${message.revision}`), made("p", {}, file, " ", word("close", () => this.close(), { class: "word boxed" }))),
      made("pre", { class: "reckoned", tabindex: 0 }, message.data.text),
    );
  }

  compare() {
    this.isOpen = true;
    this.ways.open();
    this.wire.send({ say: "differs" });
  }

  /** What is on disk against what is in hand. @param {any} message */
  differs(message) {
    const rows = message.lines.map((/** @type {any} */ one) => made("li", { class: one.sign === "+" ? "is-mine" : one.sign === "-" ? "is-theirs" : "" }, made("span", {}, one.sign), one.text));
    const mine = made("p", { class: "quiet" }, "− stands in the file, + is in hand here.");
    this.host.replaceChildren(made("header", { class: "big-head" }, made("h2", {}, "The file and this revision"), made("p", {}, word("close", () => this.close(), { class: "word boxed" }))), mine, made("ul", { class: "differs" }, ...rows));
  }
}
