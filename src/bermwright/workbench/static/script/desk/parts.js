/** @file The parts of the house as a plain list for the keyboard: choose, add, copy, rename, mirror, remove. */

import { fill, made, word } from "../core/made.js";
import { sign, slug, verdictWord } from "../core/signs.js";
import { figure } from "../findings/list.js";
import { findingsOf } from "../findings/ofpart.js";
import { fieldOf } from "./fields.js";

export class Parts {
  /**
   * @param {import("../core/wire.js").Wire} wire
   * @param {import("../core/store.js").Store} store
   */
  constructor(wire, store) {
    this.wire = wire;
    this.store = store;
    /** Opens a finding; set by whoever shows them. @type {(id: any) => void} */
    this.open = () => undefined;
    /** Place of the chosen part. @type {string|null} */
    this.chosen = null;
    /** Field that should be in sight. @type {string|null} */
    this.wanted = null;
    wire.on("parts", (message) => store.set({ parts: message }));
    wire.on("revision", () => store.now.leaf === "parts" && wire.send({ say: "parts" }));
  }

  /** @param {string} at_ place of a part, or the key of one of its values */
  choose(at_) {
    const list = this.store.now.parts?.list ?? [];
    const part = list.find((/** @type {any} */ one) => one.at === at_) ?? holder(list, at_);
    this.chosen = part?.at ?? at_;
    this.wanted = part && part.at !== at_ ? at_ : null;
    this.wire.send({ say: "parts" });
    this.store.set({ leaf: "parts", opened: null, part: this.chosen });
    // On a phone the parts lie in another place than the drawing.
    document.dispatchEvent(new CustomEvent("place", { detail: "parts" }));
  }

  /** @param {HTMLElement} leaf */
  draw(leaf) {
    const parts = this.store.now.parts;
    if (!parts) {
      leaf.replaceChildren(made("p", { class: "quiet" }, "Reading the parts."));
      return;
    }
    const focused = /** @type {any} */ (document.activeElement)?.id;
    const chosen = parts.list.find((/** @type {any} */ one) => one.at === this.chosen) ?? holder(parts.list, this.chosen ?? "");
    fill(leaf, ...(chosen ? this.one(chosen) : this.all(parts)));
    const again = this.wanted ? leaf.querySelector(`[data-key="${CSS.escape(this.wanted)}"] input`) : focused ? document.getElementById(focused) : null;
    /** @type {any} */ (again)?.focus();
    this.wanted = null;
  }

  /** @param {any} parts */
  all(parts) {
    const rows = parts.list.map((/** @type {any} */ part) =>
      made(
        "li",
        { class: `depth-${Math.min(2, part.at.split(".").filter((one) => Number.isNaN(Number(one))).length - 1)}` },
        made("button", { type: "button", class: "part-open", data: { part: part.at }, on: { click: () => this.turn(part.at) } }, made("b", {}, part.name || part.kind_label), part.name ? made("span", { class: "part-kind" }, part.kind_label) : null, mark(part)),
      ),
    );
    return [made("p", { class: "quiet lead" }, "Everything the file describes. Choose one to see and change its values."), made("ul", { class: "parts" }, ...rows), this.adding(parts)];
  }

  /** @param {string|null} at_ */
  turn(at_) {
    this.chosen = at_;
    this.store.set({ leaf: "parts", part: at_ });
  }

  /** @param {any} parts */
  adding(parts) {
    const kinds = parts.can_add ?? [];
    if (!kinds.length || this.readonly) return null;
    const kind = made("select", { id: "add-kind" }, ...kinds.map((/** @type {any} */ one) => made("option", { value: one.kind }, one.label)));
    const name = made("input", { id: "add-name", type: "text", placeholder: "its name", autocomplete: "off" });
    const add = (/** @type {Event} */ event) => {
      event.preventDefault();
      this.send({ act: "add", kind: kind.value, new_name: name.value.trim(), label: `${kind.selectedOptions[0].textContent} added` });
    };
    return made("form", { class: "adding", on: { submit: add } }, made("label", { for: "add-kind" }, "Add a part"), kind, made("label", { for: "add-name", class: "visually-hidden" }, "Its name"), name, made("button", { class: "button" }, "Add"));
  }

  get readonly() {
    return Boolean(this.store.now.revision?.readonly);
  }

  /** One part with its values. @param {any} part */
  one(part) {
    const ways = {
      readonly: this.readonly,
      send: (/** @type {string} */ key, /** @type {any} */ value, /** @type {string} */ label) =>
        this.wire.send({ say: "edit", changes: [[key, value]], label, base: this.store.now.revision?.number }),
    };
    const mistakes = this.store.now.revision?.mistakes ?? [];
    const fields = part.fields.map((/** @type {any} */ field) => fieldOf(field, { ...ways, mistake: this.wrongAt(field.key, mistakes) }));
    return [
      made("p", {}, word("all parts", () => this.turn(null))),
      made("header", { class: "part-head" }, made("h3", {}, part.name || part.kind_label, part.name ? made("span", { class: "part-kind" }, ` ${part.kind_label}`) : null), this.readonly ? null : this.acts(part)),
      this.findings(part),
      made("div", { class: "values" }, ...fields),
    ];
  }

  /** What the rules say of this part, worst first; those that hold are counted. @param {any} part */
  findings(part) {
    const all = findingsOf(part, this.store.now.found);
    const open = all.filter(({ first }) => first.verdict !== "holds");
    const held = all.length - open.length;
    if (!all.length) return null;
    const rows = open.map(({ first, others }) =>
      made("li", { class: `finding is-${slug(first.verdict)}` }, made("button", { type: "button", class: "finding-open", data: { finding: String(first.id) }, on: { click: () => this.open(first.id) } }, made("span", { class: "sign" }, sign(first.verdict)), made("span", { class: "finding-words" }, verdictWord(first.verdict), " ", made("span", { class: "says" }, first.text)), made("span", { class: "ratio" }, figure(first)), others.length ? made("span", { class: "place-line" }, `and ${others.length} more of this kind`) : null)),
    );
    const says = held ? `${held} check${held > 1 ? "s" : ""} hold${held > 1 ? "" : "s"}.` : "";
    return made("section", { class: "part-findings", "aria-label": "Findings of this part" }, made("ol", { class: "findings" }, ...rows), says ? made("p", { class: "quiet" }, open.length ? says : `Nothing against it: ${says}`) : null);
  }

  /** @param {string} key @param {any[]} mistakes */
  wrongAt(key, mistakes) {
    const refused = this.store.now.wrong;
    return mistakes.find((one) => one.key === key) ?? (refused?.key === key ? refused : undefined);
  }

  /** @param {any} part */
  acts(part) {
    const base = { kind: part.kind, name: part.name, number: part.number };
    const rename = () => this.ask(part, "its new name", (/** @type {string} */ name) => this.send({ ...base, act: "rename", new_name: name, label: `${part.name} renamed ${name}` }));
    const copy = () => this.ask(part, "name of the copy", (/** @type {string} */ name) => this.send({ ...base, act: "copy", new_name: name, label: `${part.name} copied` }));
    const words = [
      part.copies === false ? null : word("copy", copy),
      part.name ? word("rename", rename) : null,
      part.mirrors ? word("mirror", () => this.send({ ...base, act: "mirror", label: `${part.name} mirrored` })) : null,
      part.removes === false ? null : word("remove", () => this.remove(part, base)),
    ].filter(Boolean);
    return made("p", { class: "part-acts" }, ...words.flatMap((one, at_) => (at_ ? [" · ", one] : [one])), made("span", { id: "part-ask" }));
  }

  /** Ask for a name where the word stands. @param {any} part @param {string} label @param {(name: string) => void} take */
  ask(part, label, take) {
    const input = made("input", { type: "text", value: part.name ?? "", "aria-label": label, placeholder: label });
    input.addEventListener("keydown", (/** @type {KeyboardEvent} */ event) => {
      if (event.key === "Enter" && input.value.trim()) take(input.value.trim());
      if (event.key === "Escape" || event.key === "Enter") document.getElementById("part-ask")?.replaceChildren();
    });
    document.getElementById("part-ask")?.replaceChildren(input);
    input.focus();
    input.select();
  }

  /** @param {any} part @param {any} base */
  remove(part, base) {
    this.chosen = null;
    this.send({ ...base, act: "remove", label: `${part.name ?? part.kind} removed` });
  }

  /** @param {any} message */
  send(message) {
    this.wire.send({ say: "part", base: this.store.now.revision?.number, ...message });
  }
}

/** The part that a key belongs to: the one with the longest place that it begins with. @param {any[]} list @param {string} key */
function holder(list, key) {
  return list.filter((one) => key.startsWith(`${one.at}.`)).sort((a, b) => b.at.length - a.at.length)[0];
}

/** @param {any} part */
function mark(part) {
  const open = part.fields?.filter((/** @type {any} */ one) => one.needed && !one.value).length ?? 0;
  const wrong = part.fields?.filter((/** @type {any} */ one) => one.mistake).length ?? 0;
  if (wrong) return made("span", { class: "part-note is-fails" }, ` ${wrong} wrong`);
  return open ? made("span", { class: "part-note" }, ` ${open} not written`) : null;
}
