/** @file What takes longer: its progress, a word to stop it, and what came of it. Nothing waits for it. */

/** @type {Record<string, string>} */
const NAMES = {
  book: "Making the site book.",
  draw: "Making the drawings.",
  templates: "Making the templates.",
  shape: "Looking for a better curve.",
  winter: "Reckoning the winter.",
  count: "Counting.",
};

export class Jobs {
  /**
   * @param {import("../core/wire.js").Wire} wire
   * @param {import("../core/store.js").Store} store
   * @param {(message: any) => void} read show a text that was made
   */
  constructor(wire, store, read) {
    this.read = read;
    this.wire = wire;
    this.store = store;
    wire.on("progress", (message) => this.progress(message));
    wire.on("done", (message) => this.done(message));
    wire.on("stopped", (message) => this.ended(message));
    wire.on("mends", (message) => this.mends(message));
    wire.on("found", () => this.ended({ what: "full" }));
    wire.on("wrong", (message) => message.seq === undefined && this.wrong(message));
  }

  /** @param {string} what @param {any} [options] */
  begin(what, options = {}) {
    this.store.set({ job: { what, step: NAMES[what] ?? "Making it.", share: null }, made: null });
    this.asked = this.wire.send({ say: "job", what, options });
  }

  /** @param {any} message */
  progress(message) {
    if (message.what === "full") this.store.set({ running: { ...message, share: this.inked(message) } });
    else this.store.set({ job: message });
  }

  /** How far a full run is: by its steps, against those of the last one. @param {any} message */
  inked(message) {
    this.steps = message.job === this.running ? (this.steps ?? 0) + 1 : 1;
    this.running = message.job;
    return message.share ?? Math.min(0.95, this.steps / Math.max(this.last ?? 24, this.steps));
  }

  /** @param {any} message */
  done(message) {
    this.store.set({ job: null, made: message.url ? message : this.store.now.made });
    if (message.data?.text) this.read(message);
  }

  /** @param {any} message */
  ended(message) {
    if (message.what === "full") {
      this.last = this.steps ?? this.last;
      this.store.set({ running: null });
    } else this.store.set({ job: null, mending: null });
  }

  /** @param {any} message */
  mends(message) {
    const known = this.store.now.mends ?? {};
    this.store.set({ mends: { ...known, [message.finding]: message }, job: null, mending: null });
  }

  /** @param {any} message */
  wrong(message) {
    if (message.job !== undefined || message.to === this.asked || this.store.now.mending) this.store.set({ job: null, mending: null });
  }
}
