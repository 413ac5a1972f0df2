/** @file A value typed with its unit, beside its handle; what is wrong with it is said where it stands. */

import { made } from "../core/made.js";

/** @typedef {import("../core/protocol.js").Handle} Handle */

export class Typed {
  /**
   * @param {import("./board.js").Board} board
   * @param {import("../core/wire.js").Wire} wire
   * @param {import("../core/store.js").Store} store
   */
  constructor(board, wire, store) {
    this.board = board;
    this.wire = wire;
    this.store = store;
    /** @type {any} */
    this.field = null;
    wire.on("wrong", (message) => this.refused(message));
    wire.on("revision", (message) => this.taken(message));
  }

  /** @param {Handle} handle @param {Handle} moved */
  open(handle, moved) {
    this.close();
    this.handle = handle;
    this.moved = moved;
    this.input = made("input", {
      type: "text",
      value: moved.value,
      size: 12,
      autocomplete: "off",
      spellcheck: "false",
      "aria-label": `${moved.label}, with its unit`,
      "aria-describedby": "typed-says",
      on: { keydown: (/** @type {KeyboardEvent} */ event) => this.key(event), blur: () => this.leave() },
    });
    this.says = made("p", { id: "typed-says", class: "typed-says" }, range(moved));
    this.field = made("div", { class: "typed" }, made("label", {}, moved.label, this.input), this.says);
    this.place(handle);
    this.board.host.append(this.field);
    this.input.focus();
    this.input.select();
  }

  /** @param {Handle} handle */
  place(handle) {
    const { x, y } = this.board.pixels(handle);
    const room = this.board.over.clientWidth;
    this.field.style.left = `${Math.max(4, Math.min(x + this.board.over.offsetLeft + 14, room - 236))}px`;
    this.field.style.top = `${Math.max(4, y + this.board.over.offsetTop - 26)}px`;
  }

  /** @param {KeyboardEvent} event */
  key(event) {
    event.stopPropagation();
    if (event.key === "Escape") this.back();
    if (event.key === "Enter") this.send();
  }

  send() {
    const text = this.input.value.trim();
    if (text === this.moved?.value || !text) return this.back();
    this.sent = this.wire.send({
      say: "edit",
      changes: [[this.moved?.key, text]],
      label: `${this.moved?.label} ${text}`,
      base: this.store.now.revision?.number,
    });
    return undefined;
  }

  /** @param {any} message */
  refused(message) {
    if (!this.field || message.to !== this.sent) return;
    this.sent = undefined;
    message.said = true;
    const first = message.mistakes?.[0];
    this.says.textContent = first?.says ?? message.text;
    this.says.classList.add("is-wrong");
    this.input.setAttribute("aria-invalid", "true");
  }

  /** @param {any} message */
  taken(message) {
    if (this.field && this.sent !== undefined && message.to === this.sent) this.back();
  }

  /** Close, and go back to the handle. */
  back() {
    const name = this.handle?.name;
    this.close();
    const handle = this.board.over.querySelector(`[data-handle="${CSS.escape(name ?? "")}"]`);
    /** @type {any} */ (handle)?.focus();
  }

  leave() {
    if (this.sent === undefined) this.close();
  }

  close() {
    const field = this.field;
    this.field = null; // before it goes: taking it away blurs it
    field?.remove();
    this.sent = undefined;
  }
}

/** @param {Handle} moved */
function range(moved) {
  const limits = moved.low && moved.high ? `${moved.low} to ${moved.high}. ` : "";
  return `${limits}Enter takes it, Escape gives it up.`;
}
