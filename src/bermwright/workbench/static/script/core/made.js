/** @file Builds elements of the page and of drawings without any string of markup. */

const DRAWN = "http://www.w3.org/2000/svg";

/**
 * @typedef {Record<string, unknown> & {on?: Record<string, (event: any) => void>, data?: Record<string, string>}} Traits
 */

/**
 * An element of the page. Traits are attributes; `on` are listeners, `data` are data attributes.
 * @param {string} tag
 * @param {Traits} [traits]
 * @param {...(Node|string|null|undefined|false)} children
 * @returns {any}
 */
export function made(tag, traits = {}, ...children) {
  return dressed(document.createElement(tag), traits, children);
}

/**
 * An element of a drawing.
 * @param {string} tag
 * @param {Traits} [traits]
 * @param {...(Node|string|null|undefined|false)} children
 * @returns {any}
 */
export function drawn(tag, traits = {}, ...children) {
  return dressed(document.createElementNS(DRAWN, tag), traits, children);
}

/** @param {any} element @param {Traits} traits @param {any[]} children */
function dressed(element, traits, children) {
  for (const [name, value] of Object.entries(traits)) dress(element, name, value);
  element.append(...children.flat().filter((child) => child || child === 0));
  return element;
}

/** @param {any} element @param {string} name @param {any} value */
function dress(element, name, value) {
  if (value === null || value === undefined) return;
  if (name.startsWith("aria-")) {
    element.setAttribute(name, String(value));
  } else if (value === false) {
    return;
  } else if (name === "on") {
    for (const [kind, act] of Object.entries(value)) element.addEventListener(kind, act);
  } else if (name === "data") {
    Object.assign(element.dataset, value);
  } else if (name === "value") {
    element.value = value;
  } else {
    element.setAttribute(name, value === true ? "" : String(value));
  }
}

/**
 * A word that acts: the only look a control has.
 * @param {string} text
 * @param {(event: any) => void} act
 * @param {Traits} [traits]
 */
export function word(text, act, traits = {}) {
  const { class: look = "word", ...rest } = traits;
  return made("button", { type: "button", class: look, on: { click: act }, ...rest }, text);
}

/**
 * The element with this id, which the page always has.
 * @param {string} id
 * @returns {any}
 */
export function at(id) {
  const found = document.getElementById(id);
  if (!found) throw new Error(`The page has no place "${id}".`);
  return found;
}

/**
 * Everything inside an element anew; what is missing is left out.
 * @param {any} host
 * @param {...any} children
 */
export function fill(host, ...children) {
  host.replaceChildren(...children.flat().filter((child) => child || child === 0));
}

/** Whether the person asked for less motion. */
export function calm() {
  return window.matchMedia("(prefers-reduced-motion: reduce)").matches;
}
