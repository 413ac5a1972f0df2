/** @file The line to the server: joins again by itself, and loses no change that was made while it was down. */

import { CHANGES } from "./protocol.js";

/** Waits between attempts to join again (ms). */
const WAITS = [250, 500, 1000, 2000, 4000];
const LEFT = "changes not sent";

/** @typedef {{say: string, id?: string, base?: number, label?: string, [name: string]: any}} Message */

export class Wire {
  /** @param {string} path */
  constructor(path) {
    const scheme = location.protocol === "https:" ? "wss" : "ws";
    this.address = `${scheme}://${location.host}${path}`;
    /** @type {Map<string, Set<(message: any) => void>>} */
    this.listeners = new Map();
    /** Changes that were sent and not answered, or never sent. @type {Message[]} */
    this.waiting = restored();
    this.lastId = 0;
    /** Tells the messages of this page from those of the one before. */
    this.page = Date.now().toString(36);
    this.attempt = 0;
    this.open = false;
    /** Whether the page is going away: then a closed line is no news. */
    this.leaving = false;
    addEventListener("pagehide", () => (this.leaving = true));
  }

  /** @param {() => Message} hello what to say first, each time */
  join(hello) {
    this.hello = hello;
    const socket = new WebSocket(this.address);
    this.socket = socket;
    socket.addEventListener("open", () => this.joined());
    socket.addEventListener("message", (event) => this.hear(JSON.parse(event.data)));
    socket.addEventListener("close", () => this.lost());
  }

  /** Join at once, without waiting. */
  again() {
    clearTimeout(this.timer);
    this.join(/** @type {() => Message} */ (this.hello));
  }

  joined() {
    this.attempt = 0;
    this.open = true;
    this.put(/** @type {() => Message} */ (this.hello)());
    this.tell({ say: "line", state: "open" });
  }

  lost() {
    if (this.leaving) return;
    this.open = false;
    this.tell({ say: "line", state: "lost" });
    const wait = WAITS[Math.min(this.attempt++, WAITS.length - 1)];
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.again(), wait);
  }

  /**
   * Send; a change waits where the line is down. Looks and drags of a lost line are let go: they are old by then.
   * @param {Message} message
   * @returns {string} its id
   */
  send(message) {
    const sent = { ...message, id: `${this.page}-${++this.lastId}` };
    if (CHANGES.has(message.say)) {
      this.waiting.push(sent);
      this.remember();
    }
    if (this.open) this.put(sent);
    else if (CHANGES.has(message.say)) this.tell({ say: "unsent", list: this.unsent() });
    return sent.id;
  }

  /** @param {Message} message */
  put(message) {
    this.socket?.send(JSON.stringify(message));
  }

  /** @param {any} message */
  hear(message) {
    if (message.to !== undefined) this.answered(message.to);
    else if (message.say === "revision") this.made(message);
    this.tell(message);
  }

  /** @param {string} id */
  answered(id) {
    const one = this.waiting.find((each) => each.id === id);
    if (!one) return;
    /** What was answered last: where that is a refusal, it can be made again. */
    this.lastAnswered = one;
    this.waiting = this.waiting.filter((each) => each !== one);
    this.remember();
  }

  /** A revision that says by its label which change it came from. @param {any} revision */
  made(revision) {
    const mine = this.waiting.find((one) => isFrom(revision.label, one));
    if (mine?.id) this.answered(mine.id);
  }

  /** Changes that nobody has answered. */
  unsent() {
    return [...this.waiting];
  }

  /**
   * After joining again: send what waited, on top of the revision that the server has now.
   * @param {number} base
   */
  resend(base) {
    for (const one of this.waiting) this.put({ ...one, base });
  }

  /** Let the waiting changes go, because a person said so or because they were made already. */
  forget() {
    this.waiting = [];
    this.remember();
  }

  remember() {
    try {
      sessionStorage.setItem(LEFT, JSON.stringify(this.waiting));
    } catch {
      // Storage may be forbidden: then they live as long as this page.
    }
  }

  /**
   * @param {string} say
   * @param {(message: any) => void} listener
   */
  on(say, listener) {
    if (!this.listeners.has(say)) this.listeners.set(say, new Set());
    this.listeners.get(say)?.add(listener);
  }

  /** @param {any} message */
  tell(message) {
    for (const listener of this.listeners.get(message.say) ?? []) listener(message);
  }
}

/** @param {string} label @param {Message} change */
function isFrom(label, change) {
  const said = { undo: /^(undone|nothing to undo)/, redo: /^(done again|nothing to do)/, keep: /^kept/, take: /^taken/ }[change.say];
  return said ? said.test(label) : change.label === label;
}

/** @returns {Message[]} */
function restored() {
  try {
    return JSON.parse(sessionStorage.getItem(LEFT) ?? "[]");
  } catch {
    return [];
  }
}
