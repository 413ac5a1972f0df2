/** @file Findings as sentences, worst first, by part or by stage; what was not checked, by name. */

import { fill, made, word } from "../core/made.js";
import { sign, slug, verdictWord } from "../core/signs.js";
import { stagesOf } from "../drawing/building.js";
import { groups } from "./order.js";

/** @typedef {import("../core/protocol.js").Finding} Finding */

const MANNERS = /** @type {const} */ ([
  ["worst", "worst"],
  ["part", "part"],
  ["stage", "stage"],
]);

export class FindingList {
  /**
   * @param {import("../core/store.js").Store} store
   * @param {(id: string) => void} open
   */
  constructor(store, open) {
    this.store = store;
    this.open = open;
    /** @type {"worst"|"part"|"stage"} */
    this.manner = "worst";
    /** Groups that a person opened or closed. @type {Map<string, boolean>} */
    this.folded = new Map();
  }

  /** @param {HTMLElement} leaf */
  draw(leaf) {
    const { found, scene, revision } = this.store.now;
    if (!found) {
      leaf.replaceChildren(made("p", { class: "quiet" }, "The findings come with the first full run."), ...this.provisional(scene));
      return;
    }
    const stale = revision && found.revision !== revision.number;
    const stages = stagesOf(this.store.now).map((/** @type {any} */ one) => one.stage);
    fill(
      leaf,
      this.head(found, stale),
      ...groups(found.findings, this.manner, stages).map((group) => this.group(group)),
      notChecked(found.not_checked ?? []),
    );
    leaf.classList.toggle("is-stale", Boolean(stale));
  }

  /** @param {any} found @param {boolean} stale */
  head(found, stale) {
    const ways = MANNERS.map(([manner, text]) =>
      word(text, () => this.turn(manner), { class: "word is-small", "aria-pressed": this.manner === manner }),
    );
    return made(
      "div",
      { class: "list-head" },
      made("p", { class: "counts" }, counted(found.counts ?? {}), stale ? made("span", { class: "from" }, `from revision ${found.revision}`) : null),
      made("p", { class: "ways", role: "group", "aria-label": "Order of the findings" }, "by ", ...ways),
    );
  }

  /** @param {"worst"|"part"|"stage"} manner */
  turn(manner) {
    this.manner = manner;
    this.store.set({ leaf: this.store.now.leaf });
  }

  /** @param {{name: string, stacks: import("./order.js").Stack[]}} group */
  group(group) {
    const rows = group.stacks.map((stack) => this.row(stack));
    if (!group.name) return made("ol", { class: "findings" }, ...rows);
    const shut = group.name === "holds" && this.manner === "worst";
    const open = this.folded.get(group.name) ?? !shut;
    const count = group.stacks.reduce((sum, one) => sum + 1 + one.others.length, 0);
    const title = shut ? `${count} hold` : group.name;
    return made(
      "details",
      { class: "group", open, on: { toggle: (/** @type {any} */ event) => this.folded.set(group.name, event.target.open) } },
      made("summary", {}, title),
      made("ol", { class: "findings" }, ...rows),
    );
  }

  /** @param {import("./order.js").Stack} stack */
  row({ first, others }) {
    return made(
      "li",
      { class: `finding is-${slug(first.verdict)}${this.store.now.opened === first.id ? " is-open" : ""}` },
      made(
        "button",
        { type: "button", class: "finding-open", data: { finding: String(first.id) }, on: { click: () => this.open(first.id) } },
        made("span", { class: "sign" }, sign(first.verdict)),
        made("span", { class: "finding-words" }, verdictWord(first.verdict), " ", made("span", { class: "says" }, first.text)),
        made("span", { class: "ratio" }, figure(first)),
        made("span", { class: "place-line" }, placeLine(first)),
      ),
      others.length ? this.others(others) : null,
    );
  }

  /** @param {Finding[]} others */
  others(others) {
    const shown = others.slice(0, 6).map((one) =>
      word([whereElse(one), figure(one)].filter(Boolean).join(" "), () => this.open(one.id), { class: "word is-small" }),
    );
    const rest = others.length - shown.length;
    return made("p", { class: "also" }, "also ", ...shown.flatMap((one, at) => (at ? [", ", one] : [one])), rest > 0 ? ` and ${rest} more` : null);
  }

  /** Before the first full run: what the shown case says. @param {any} scene */
  provisional(scene) {
    const list = scene?.sentences ?? [];
    return list.map((/** @type {any} */ one) =>
      made(
        "div",
        { class: `finding is-${slug(one.verdict)} is-plain` },
        made("span", { class: "sign" }, sign(one.verdict)),
        made("span", { class: "finding-words" }, verdictWord(one.verdict), " ", one.text),
      ),
    );
  }
}

/** How many of each, worst first. @param {Record<string, number>} counts */
function counted(counts) {
  const words = { fails: counts.fails === 1 ? "fails" : "fail", unknown: "unknown", tight: "tight", holds: counts.holds === 1 ? "holds" : "hold" };
  return Object.entries(words)
    .filter(([verdict]) => counts[verdict])
    .map(([verdict, text]) => `${counts[verdict]} ${text}`)
    .join(", ");
}

/** @param {any} finding */
export function figure(finding) {
  return finding.ratio_text && finding.ratio_text !== "unknown" ? finding.ratio_text : "";
}

/** What tells this place from the worst one of the same rule. @param {Finding} one */
function whereElse(one) {
  const load = one.case === "permanent" ? null : one.case;
  return [one.stage, load, one.stage ? null : one.place].filter(Boolean).join(", ") || "once more";
}

/** @param {any} finding */
export function placeLine(finding) {
  return [finding.part.replaceAll('"', ""), finding.stage, finding.case, finding.place].filter(Boolean).join(" · ");
}

/** @param {string[]} names */
function notChecked(names) {
  if (!names.length) return null;
  return made(
    "section",
    { class: "not-checked" },
    made("h3", {}, "Not checked"),
    made("ul", {}, ...names.map((name) => made("li", {}, withTerminalWords(name)))),
  );
}

/** Words between back quotes are set as figures. @param {string} text */
function withTerminalWords(text) {
  const pieces = text.split("`");
  return made("span", {}, ...pieces.map((piece, at) => (at % 2 ? made("code", {}, piece) : piece)));
}
