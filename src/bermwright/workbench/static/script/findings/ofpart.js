/** @file Which findings speak of a part of the file: by its kind and name, as the rules write them. */

import { stacks } from "./order.js";

/**
 * The findings of one part, worst first, the same rule once.
 * @param {any} part as the list of parts has it
 * @param {any} found
 */
export function findingsOf(part, found) {
  const names = namesOf(part);
  const list = (found?.findings ?? []).filter((/** @type {any} */ one) => one.verdict !== "does not apply" && names.some((name) => one.part === name || one.part.startsWith(`${name}, `)));
  return stacks(list);
}

/** Such as `opening "front door"`, `end "day room", back`. @param {any} part @returns {string[]} */
function namesOf(part) {
  if (!part) return [];
  const value = (/** @type {string} */ key) => part.fields?.find((/** @type {any} */ one) => one.key === `${part.at}.${key}`)?.value;
  if (part.kind === "end") return [`end "${value("vault")}", ${value("at")}`];
  if (!part.name) return [];
  const words = part.kind_label.split(" ");
  return [...new Set([part.kind_label, words.at(-1)])].map((kind) => `${kind} "${part.name}"`);
}
