/**
 * @file A drawing of the server as elements: each of its lines is one element. Where a new drawing follows an old
 * one, lines that are the same keep their element and paths that moved get their new way; little is made anew.
 */

const DRAWN = "http://www.w3.org/2000/svg";
const reader = new DOMParser();
/** What the lettering of a sheet is condensed by where its own narrow face is missing. */
const CONDENSED = / scale\(0\.84 1\)/g;
/** One path without anything inside. */
const PATH = /^<path ([^<>]*)\/>$/;
const TRAIT = /([\w:-]+)="([^"]*)"/g;

/** The SVG of the server as an element. @param {string} text @returns {SVGElement|null} */
export function readDrawing(text) {
  // The page has the narrow face, so nothing is squeezed.
  const document_ = reader.parseFromString(text.replace(CONDENSED, ""), "image/svg+xml");
  const svg = document_.documentElement;
  if (svg.nodeName !== "svg") return null;
  for (const name of ["width", "height"]) svg.removeAttribute(name);
  return /** @type {any} */ (document.importNode(svg, true));
}

export class Sheet {
  /** @param {HTMLElement} host */
  constructor(host) {
    this.host = host;
    /** @type {SVGElement|null} */
    this.svg = null;
    /** The lines of the drawing that lies there. @type {string[]} */
    this.lines = [];
    /** The element of each of them. @type {Element[]} */
    this.elements = [];
  }

  /** Show a drawing; false where it is none. @param {string} text */
  show(text) {
    const [head, ...lines] = text.replace(CONDENSED, "").trimEnd().split("\n");
    lines.pop();
    if (!this.svg || head !== this.head || !this.follow(lines)) return this.whole(text, head, lines);
    this.lines = lines;
    return true;
  }

  /** @param {string} text @param {string} head @param {string[]} lines */
  whole(text, head, lines) {
    const svg = readDrawing(text);
    if (!svg) return false;
    this.svg = svg;
    this.host.replaceChildren(svg);
    this.elements = [...svg.children];
    // Where lines and elements are not one and one, the next drawing is made anew as well.
    this.head = this.elements.length === lines.length ? head : null;
    this.lines = lines;
    return true;
  }

  /** Turn the old drawing into the new one, line by line. @param {string[]} lines */
  follow(lines) {
    /** @type {Map<string, number[]>} */
    const places = new Map();
    this.lines.forEach((line, at) => places.set(line, [...(places.get(line) ?? []), at]));
    let last = -1;
    // Lines that stayed, in their order; what lies between two of them was changed, added or taken away.
    const kept = lines.map((line) => {
      const at = places.get(line)?.find((one) => one > last);
      if (at !== undefined) last = at;
      return at;
    });
    const fresh = this.fresh(lines, kept);
    if (!fresh) return false;
    this.place(fresh);
    this.elements = fresh;
    return true;
  }

  /** The elements of the new drawing: kept, moved or made. @param {string[]} lines @param {(number|undefined)[]} kept @returns {Element[]|null} */
  fresh(lines, kept) {
    let from = 0;
    /** @type {(Element|undefined)[]} */
    const found = lines.map((line, at) => {
      const same = kept[at];
      if (same !== undefined) {
        from = same + 1;
        return this.elements[same];
      }
      const next = kept.slice(at).find((one) => one !== undefined) ?? this.lines.length;
      if (from >= next || !moved(this.elements[from], this.lines[from], line)) return undefined;
      return this.elements[from++];
    });
    const missing = lines.filter((_, at) => !found[at]);
    const made = missing.length ? elementsOf(missing) : [];
    if (!made) return null;
    return found.map((one) => one ?? /** @type {Element} */ (made.shift()));
  }

  /** Put elements in their order; those that lie there already are not touched. @param {Element[]} list */
  place(list) {
    const svg = /** @type {SVGElement} */ (this.svg);
    const stay = new Set(list);
    for (const one of this.elements) if (!stay.has(one)) one.remove();
    let here = svg.firstElementChild;
    for (const one of list) {
      if (one === here) here = here.nextElementSibling;
      else svg.insertBefore(one, here);
    }
  }
}

/** A path that goes another way now; false where both lines are not plain paths. @param {Element} element @param {string} before @param {string} now */
function moved(element, before, now) {
  const one = PATH.exec(before);
  const other = PATH.exec(now);
  if (!one || !other) return false;
  const old = traits(one[1]);
  const wanted = traits(other[1]);
  for (const name of old.keys()) if (!wanted.has(name)) element.removeAttribute(name);
  for (const [name, value] of wanted) if (old.get(name) !== value) element.setAttribute(name, value);
  return true;
}

/** @param {string} text @returns {Map<string, string>} */
function traits(text) {
  return new Map([...text.matchAll(TRAIT)].map((one) => [one[1], one[2]]));
}

/** Lines as elements, one for each; null where they are not. @param {string[]} lines @returns {Element[]|null} */
function elementsOf(lines) {
  const document_ = reader.parseFromString(`<svg xmlns="${DRAWN}">${lines.join("")}</svg>`, "image/svg+xml");
  const list = [...document_.documentElement.children];
  if (document_.documentElement.nodeName !== "svg" || list.length !== lines.length) return null;
  return list.map((one) => document.importNode(one, true));
}
