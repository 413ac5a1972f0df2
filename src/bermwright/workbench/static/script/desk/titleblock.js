/** @file The title block is the menu: house, revision, kept, units, light, print, stop. Only underlined words act. */

import { at, fill, made, word } from "../core/made.js";

/** What can be printed or taken away. */
const PRINTS = [
  ["book", "site book"],
  ["draw", "drawings"],
  ["templates", "templates"],
];
/** What takes longer to reckon than the drawing can wait for. */
const RECKONED = [
  ["shape", "a better curve"],
  ["winter", "the winter"],
  ["count", "quantities"],
];
const PLACES = [
  ["/start", "start"],
  ["/sketch", "sketch"],
  ["/making", "made by hand"],
  ["/compare", "compare"],
  ["/lessons", "lessons"],
  ["/walk", "walk"],
];

export class TitleBlock {
  /**
   * @param {import("../core/wire.js").Wire} wire
   * @param {import("../core/store.js").Store} store
   * @param {{light: () => void, units: () => void, job: (what: string) => void, vault: (at: number) => void}} ways
   */
  constructor(wire, store, ways) {
    this.wire = wire;
    this.store = store;
    this.ways = ways;
    this.host = at("title-block");
    store.on(["revision", "units", "light", "job", "line", "made"], (now) => this.draw(now));
    store.on(["scene"], (now) => now.scene?.vault !== this.vault && this.draw(now));
  }

  /** @param {any} now */
  draw(now) {
    const focused = /** @type {any} */ (document.activeElement)?.dataset?.word;
    const revision = now.revision;
    this.vault = now.scene?.vault;
    fill(
      this.host,
      this.field("house", "wide", revision ? made("b", {}, revision.house ?? "") : "", ...this.vaults(now), ...another(revision)),
      this.field("revision", "", made("b", { class: "figure" }, String(revision?.number ?? "")), " ", ...this.undo(revision)),
      this.field("file", "", made("span", { class: "file" }, name(revision?.file))),
      this.field(revision && !revision.kept ? "not kept yet" : "kept", "", ...this.kept(revision)),
      this.field("units, light", "", this.word(now.units, this.ways.units, "units"), ", ", this.word(now.light, this.ways.light, "light")),
      this.field("print", "whole", ...this.jobs(PRINTS), " · ", made("a", { class: "word", href: `/model.glb?revision=${revision?.number ?? 0}`, download: "house.glb" }, "model")),
      this.field("reckon", "whole", ...this.jobs(RECKONED)),
      this.work(now),
      this.field("go to", "whole", ...spaced(PLACES.map(([path, text]) => made("a", { class: "word", href: path }, text)))),
    );
    if (focused) this.host.querySelector(`[data-word="${focused}"]`)?.focus();
  }

  /** The vault that is shown; a word for each where there are several. @param {any} now */
  vaults(now) {
    const names = now.revision?.vaults ?? [];
    if (names.length < 2) return names.length ? [`, ${names[0]}`] : [];
    const words = names.map((/** @type {string} */ text, /** @type {number} */ at_) => this.word(text, () => this.ways.vault(at_), `vault-${at_}`, { "aria-pressed": at_ === now.scene?.vault }));
    return [": ", ...spaced(words)];
  }

  /** @param {string} label @param {string} look @param {...any} inside */
  field(label, look, ...inside) {
    return made("div", { class: `field ${look}` }, made("span", { class: "field-label" }, label), made("span", { class: "field-value" }, ...inside));
  }

  /** @param {string} text @param {() => void} act @param {string} name_ @param {any} [more] */
  word(text, act, name_, more = {}) {
    return word(text ?? "", act, { data: { word: name_ }, ...more });
  }

  /** @param {any} revision */
  undo(revision) {
    if (!revision || revision.readonly) return [revision?.readonly ? "to look at only" : ""];
    const undo = this.word("undo", () => this.wire.send({ say: "undo" }), "undo", { disabled: !revision.undoes, title: revision.undoes ? `Take back: ${revision.undoes}` : "Nothing to take back" });
    const redo = this.word("redo", () => this.wire.send({ say: "redo" }), "redo", { disabled: !revision.redoes, title: revision.redoes ? `Do again: ${revision.redoes}` : "Nothing to do again" });
    return [undo, " ", redo];
  }

  /** @param {any} revision */
  kept(revision) {
    if (!revision) return [""];
    if (revision.readonly && !revision.kept) return ["not by this window"];
    if (revision.kept) return [revision.kept_at || "as in the file"];
    return [this.word("keep", () => this.wire.send({ say: "keep" }), "keep", { title: "Write this revision into the file (Ctrl S)" })];
  }

  /** @param {string[][]} list */
  jobs(list) {
    return spaced(list.map(([what, text]) => this.word(text, () => this.ways.job(what), what)));
  }

  /** What is being made, with a word to stop it; or what was made last. @param {any} now */
  work(now) {
    const job = now.job;
    if (job) {
      return this.field(
        "at work",
        "whole",
        made("span", { role: "status" }, `${job.step || job.what} `),
        job.job === undefined ? null : this.word("stop", () => this.wire.send({ say: "stop", job: job.job }), "stop"),
      );
    }
    if (now.made) return this.field("made", "whole", made("a", { class: "word", href: now.made.url, download: now.made.name ?? "", data: { word: "made" } }, now.made.name ?? now.made.what));
    return null;
  }
}

/** Another house of the same folder. @param {any} revision */
function another(revision) {
  return revision && !revision.readonly ? [" · ", made("a", { class: "word", href: "/start#files-head", title: "Lay another house of this folder on the desk" }, "another")] : [];
}

/** @param {string|undefined} path */
function name(path) {
  return String(path ?? "").split(/[\\/]/).at(-1) ?? "";
}

/** @param {any[]} list */
function spaced(list) {
  return list.flatMap((one, at_) => (at_ ? [" · ", one] : [one]));
}
