/** @file The leaves beside the drawing: findings, questions, parts. One is open; a finding opens over them. */

import { at, made, word } from "../core/made.js";
import { drawOpened } from "../findings/opened.js";
import { FindingList } from "../findings/list.js";
import { drawQuestions } from "../findings/questions.js";

export class Leaves {
  /**
   * @param {import("../core/wire.js").Wire} wire
   * @param {import("../core/store.js").Store} store
   * @param {{parts: import("./parts.js").Parts, write: () => void, look: (finding: any) => void}} ways
   */
  constructor(wire, store, ways) {
    this.wire = wire;
    this.store = store;
    this.ways = ways;
    this.host = at("leaf");
    ways.parts.open = (id) => this.open(id);
    this.list = new FindingList(store, (id) => this.open(id));
    store.on(["found", "leaf", "opened", "mends", "evidence", "job", "parts", "revision", "wrong"], () => this.draw());
    wire.on("evidence", (message) => store.set({ evidence: { ...store.now.evidence, [message.rule]: message } }));
    store.on(["scene"], (now) => !now.found && this.draw());
    document.addEventListener("keydown", (event) => event.key === "Escape" && !isTyping(event) && this.close());
  }

  draw() {
    const { leaf, found, opened } = this.store.now;
    at("leaves").replaceChildren(...this.words());
    const finding = found?.findings.find((/** @type {any} */ one) => one.id === opened);
    const keep = this.host.scrollTop;
    const shown = `${leaf} ${opened ?? ""}`;
    if (leaf === "questions") drawQuestions(this.host, { store: this.store, answer: (key) => this.ways.parts.choose(key) });
    else if (leaf === "parts") this.ways.parts.draw(this.host);
    else if (finding) drawOpened(this.host, finding, { store: this.store, wire: this.wire, close: () => this.close(), look: this.ways.look });
    else this.list.draw(this.host);
    const came = finding && this.store.now.mends?.[finding.id];
    this.host.scrollTop = shown === this.shown ? keep : shown === "findings " ? (this.listAt ?? 0) : 0;
    this.shown = shown;
    // Remedies that have just come are brought into sight.
    if (came && came !== this.seenMends) this.host.querySelector("#remedies")?.scrollIntoView({ block: "start" });
    this.seenMends = came;
  }

  words() {
    const { found, leaf, parts, readonly } = this.store.now;
    const words = [
      this.word("findings", "Findings", "", leaf),
      this.word("questions", "Questions", found ? String(found.questions.length) : "", leaf),
      this.word("parts", "Parts", parts ? String(parts.list.length) : "", leaf),
      made("span", { class: "leaf-word" }, word("File", this.ways.write, { class: "word", "aria-label": readonly ? "read the file" : "write the file by hand" })),
    ];
    return words;
  }

  /** @param {string} name @param {string} text @param {string} count @param {string} leaf */
  word(name, text, count, leaf) {
    const here = name === leaf;
    return made("span", { class: `leaf-word${here ? " is-here" : ""}` }, word(text, () => this.turn(name), { "aria-pressed": here, data: { leaf: name } }), count ? made("span", { class: "count" }, ` ${count}`) : null);
  }

  /** @param {string} leaf */
  turn(leaf) {
    if (leaf === "parts") this.wire.send({ say: "parts" });
    this.store.set({ leaf, opened: null, part: leaf === "parts" ? this.ways.parts.chosen : null });
  }

  /** @param {any} id */
  open(id) {
    if (!this.store.now.opened) this.listAt = this.host.scrollTop;
    this.store.set({ leaf: "findings", opened: id, part: null });
    const finding = this.store.now.found?.findings.find((/** @type {any} */ one) => one.id === id);
    if (finding) this.ways.look(finding);
    if (finding && !this.store.now.evidence?.[finding.rule]) this.wire.send({ say: "evidence", rule: finding.rule });
    document.getElementById("opened-text")?.focus({ preventScroll: true });
  }

  close() {
    const id = this.store.now.opened;
    if (id === null || id === undefined) return;
    this.store.set({ opened: null });
    /** @type {any} */ (this.host.querySelector(`[data-finding="${id}"]`))?.focus({ preventScroll: true });
  }
}

/** @param {Event} event */
function isTyping(event) {
  return /** @type {any} */ (event.target)?.closest?.("input, textarea, select, [data-handle]");
}
