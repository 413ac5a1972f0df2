/** @file What must be said at once: recovered edits, a file changed on disk, mistakes, refusals, a lost line. */

import { at, made, word } from "../core/made.js";

export class Notices {
  /**
   * @param {import("../core/wire.js").Wire} wire
   * @param {import("../core/store.js").Store} store
   * @param {{write: (line?: number) => void, compare: () => void}} ways
   */
  constructor(wire, store, ways) {
    this.wire = wire;
    this.store = store;
    this.ways = ways;
    this.host = at("notices");
    /** Notices that a person has put away. @type {Set<string>} */
    this.away = new Set();
    /** @type {any} */
    this.refusal = null;
    wire.on("wrong", (message) => this.refused(message));
    wire.on("unsent", () => this.draw());
    wire.on("line", (message) => this.line(message.state));
    wire.on("revision", () => this.moved());
    store.on(["revision", "waiting"], () => this.draw());
  }

  /** @param {"open"|"joining"|"lost"} state */
  line(state) {
    this.store.set({ line: state });
    this.draw();
  }

  moved() {
    if (this.refusal?.kind !== "stale") this.refusal = null;
    this.draw();
  }

  /** @param {any} message */
  refused(message) {
    if (message.seq !== undefined || message.said) return;
    this.refusal = { ...message, change: this.wire.lastAnswered?.id === message.to ? this.wire.lastAnswered : undefined };
    this.draw();
  }

  draw() {
    const list = [this.lost(), this.waiting(), this.refusedNow(), this.changed(), this.recovered(), this.mistakes(), this.readonly()];
    this.host.replaceChildren(...list.filter(Boolean));
  }

  /** @param {string} name @param {any[]} inside @param {any[]} words */
  notice(name, inside, words = []) {
    const put = () => {
      this.away.add(name);
      this.refusal = name === "refusal" ? null : this.refusal;
      this.draw();
    };
    if (name !== "refusal" && this.away.has(name)) return null;
    return made("div", { class: `notice is-${name}`, data: { notice: name } }, made("p", {}, ...inside), made("p", { class: "notice-words" }, ...words, word("put away", put)));
  }

  lost() {
    if (this.store.now.line !== "lost") return null;
    const count = this.wire.unsent().length;
    const held = count ? ` ${count} change${count > 1 ? "s are" : " is"} kept here and sent when it is back.` : " Nothing is lost.";
    return made(
      "div",
      { class: "notice is-lost", data: { notice: "lost" } },
      made("p", {}, made("b", {}, "The line to the workbench is down."), held, " Was it ended? Start it again with ", made("code", {}, "bermwright open"), "."),
      made("p", { class: "notice-words" }, word("try now", () => this.wire.again())),
    );
  }

  /** Changes of before the line broke, on another revision: a person says what becomes of them. */
  waiting() {
    const list = this.store.now.waiting ?? [];
    if (!list.length) return null;
    const names = list.map((/** @type {any} */ one) => one.label ?? one.say).join(", ");
    const send = () => {
      this.store.set({ waiting: [] });
      this.wire.resend(this.store.now.revision?.number);
    };
    const drop = () => {
      this.wire.forget();
      this.store.set({ waiting: [] });
    };
    return made(
      "div",
      { class: "notice is-waiting", data: { notice: "waiting" } },
      made("p", {}, made("b", {}, "Not sent before the line broke: "), `${names}. The house has moved meanwhile.`),
      made("p", { class: "notice-words" }, word("make it now", send), " ", word("let it go", drop)),
    );
  }

  refusedNow() {
    const one = this.refusal;
    if (!one) return null;
    if (one.kind === "changed") return null;
    const again = () => {
      this.refusal = null;
      const { id: _, ...change } = one.change;
      this.wire.send({ ...change, base: this.store.now.revision?.number });
    };
    const words = one.kind === "stale" && one.change ? [word(`make it again: ${one.change.label ?? one.change.say}`, again), " "] : [];
    return this.notice("refusal", [made("b", {}, titles[/** @type {"stale"} */ (one.kind)] ?? "Not done. "), one.text], words);
  }

  changed() {
    if (!this.store.now.revision?.changed_on_disk && this.refusal?.kind !== "changed") return null;
    const over = () => this.wire.send({ say: "keep", over: true });
    const take = () => this.wire.send({ say: "take" });
    return made(
      "div",
      { class: "notice is-changed", data: { notice: "changed" } },
      made("p", {}, made("b", {}, "The file was changed by another program. "), "Nothing was overwritten."),
      made("p", { class: "notice-words" }, word("compare", this.ways.compare), " ", word("keep mine over it", over), " ", word("take what is there", take)),
    );
  }

  recovered() {
    if (!this.store.now.revision?.recovered) return null;
    return this.notice("recovered", [made("b", {}, "Found again: "), "edits of last time that were not kept in the file. Undo goes back before them."]);
  }

  mistakes() {
    const list = this.store.now.revision?.mistakes ?? [];
    if (!list.length) return null;
    const lines = list.slice(0, 4).map((/** @type {any} */ one) => made("li", {}, one.line ? `Line ${one.line}: ` : "", `${one.place}: ${one.says}`));
    return made(
      "div",
      { class: "notice is-mistakes", data: { notice: "mistakes" } },
      made("p", {}, made("b", {}, `${list.length} mistake${list.length > 1 ? "s" : ""} in the file. `), "The drawing shows the last revision that could be read."),
      made("ul", {}, ...lines),
      made("p", { class: "notice-words" }, word("write it right", () => this.ways.write(list[0].line ?? undefined))),
    );
  }

  readonly() {
    if (!this.store.now.revision?.readonly) return null;
    return this.notice("readonly", [made("b", {}, "Shared to look at. "), "Whoever opened the house may change it; here nothing can be."]);
  }
}

const titles = { stale: "Changed elsewhere first. ", mistakes: "This cannot be so. ", refused: "Not done. ", fault: "Something went wrong here. " };
