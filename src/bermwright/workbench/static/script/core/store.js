/** @file What this page knows now. Views listen to the parts they draw; nobody writes but through `set`. */

/**
 * @typedef {import("./protocol.js").Known} Known
 */

export class Store {
  /** @param {Partial<Known>} [known] */
  constructor(known = {}) {
    /** @type {any} */
    this.now = { ...known };
    /** @type {Map<string, Set<(value: any) => void>>} */
    this.listeners = new Map();
  }

  /**
   * Take new knowledge; each view that listens to one of these names is told once.
   * @param {Partial<Known>} news
   */
  set(news) {
    Object.assign(this.now, news);
    const told = new Set();
    for (const name of Object.keys(news)) {
      for (const listener of this.listeners.get(name) ?? []) told.add(listener);
    }
    for (const listener of told) listener(this.now);
  }

  /**
   * Be told when one of these names changes, and once now.
   * @param {string[]} names
   * @param {(now: any) => void} listener
   */
  on(names, listener) {
    for (const name of names) {
      if (!this.listeners.has(name)) this.listeners.set(name, new Set());
      this.listeners.get(name)?.add(listener);
    }
    listener(this.now);
  }
}
