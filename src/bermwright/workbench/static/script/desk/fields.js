/** @file One value of the file as a field: its unit, range, default and source, and what is wrong where it stands. */

import { made } from "../core/made.js";

/**
 * @param {any} field
 * @param {{send: (key: string, value: string|null, label: string) => void, readonly: boolean, mistake?: any}} ways
 */
export function fieldOf(field, ways) {
  const id = `field-${field.key.replaceAll(".", "-")}`;
  const wrong = ways.mistake ?? field.mistake;
  const input = field.choices?.length ? choice(field, id, ways) : text(field, id, ways);
  if (wrong) input.setAttribute("aria-invalid", "true");
  return made(
    "div",
    { class: `value${field.given === false ? " is-default" : ""}${wrong ? " is-wrong" : ""}`, data: { key: field.key } },
    made("label", { for: id }, field.label, field.needed && !field.value ? made("span", { class: "needed" }, " needed") : null),
    input,
    made("p", { class: "value-says", id: `${id}-says` }, wrong ? made("b", {}, wrong.says ?? wrong) : said(field)),
  );
}

/** @param {any} field @param {string} id @param {any} ways */
function text(field, id, ways) {
  const sent = (/** @type {any} */ event) => leave(event.target, field, ways);
  return made("input", {
    id,
    type: "text",
    value: field.value ?? "",
    placeholder: field.default ? String(field.default) : (field.example ?? ""),
    readonly: ways.readonly || isLine(field),
    autocomplete: "off",
    spellcheck: "false",
    "aria-describedby": `${id}-says`,
    on: {
      change: sent,
      keydown: (/** @type {any} */ event) => {
        if (event.key !== "Escape") return;
        event.target.value = field.value ?? "";
        event.target.blur();
      },
    },
  });
}

/** A line through points is written in the file itself. @param {any} field */
function isLine(field) {
  return String(field.value ?? "").startsWith("[");
}

/** @param {any} field @param {string} id @param {any} ways */
function choice(field, id, ways) {
  const none = field.needed ? [] : [made("option", { value: "" }, field.default ? `not written: ${field.default}` : "not written")];
  const options = field.choices.map((/** @type {string} */ one) => made("option", { value: one, selected: one === field.value }, one));
  const list = made("select", { id, disabled: ways.readonly, "aria-describedby": `${id}-says`, on: { change: (/** @type {any} */ event) => leave(event.target, field, ways) } }, ...none, ...options);
  list.value = field.value ?? "";
  return list;
}

/** @param {any} input @param {any} field @param {any} ways */
function leave(input, field, ways) {
  const now = input.value.trim();
  if (now === (field.value ?? "")) return;
  ways.send(field.key, now === "" ? null : plain(field, now), `${field.label} ${now || "taken out"}`);
}

/** A count is a number in the file, everything else a text with its unit. @param {any} field @param {string} now */
function plain(field, now) {
  return !field.unit && !field.choices?.length && /^-?\d+(\.\d+)?$/.test(now) ? Number(now) : now;
}

/** Help, range and source in one quiet line. @param {any} field */
function said(field) {
  const range = field.low && field.high ? `${field.low} to ${field.high}` : field.low ? `from ${field.low}` : field.high ? `up to ${field.high}` : "";
  const standard = field.default && !field.value ? `Not written: ${field.default} is taken.` : "";
  const asked = !field.value && field.asks ? `${field.asks} ${field.how}` : "";
  return [field.help, range && `${range}${field.because ? ` (${field.because})` : ""}.`, standard, asked, isLine(field) && "Change it in the file.", field.source && `Source: ${field.source}.`].filter(Boolean).join(" ");
}
