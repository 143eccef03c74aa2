// Lengths as a person reads them: inches first, fractions built, with the words for ears.
import { html, nothing } from "../vendor/lit-html.js";

export const MM_PER_INCH = 25.4;
const NAMES = { 4: "quarter", 8: "eighth", 16: "sixteenth" };

/** Whole inches, numerator and denominator of so many sixteenths. */
export function inchParts(sixteenths) {
  let [numerator, denominator] = [sixteenths % 16, 16];
  while (numerator && numerator % 2 === 0) [numerator, denominator] = [numerator / 2, denominator / 2];
  return [Math.floor(sixteenths / 16), numerator, numerator ? denominator : 1];
}

/** "22 and 5 eighths inches", "a half inch", as it is read aloud; the desk has the same words. */
export function inchWords(sixteenths) {
  const [whole, numerator, denominator] = inchParts(sixteenths);
  if (!numerator) return `${whole} ${whole === 1 ? "inch" : "inches"}`;
  if (denominator === 2) return whole ? `${whole} and a half inches` : "a half inch";
  const part = `${numerator} ${NAMES[denominator]}${numerator > 1 ? "s" : ""}`;
  return whole ? `${whole} and ${part} inches` : `${part} of an inch`;
}

/** The fraction alone, for keys. */
export function fraction(numerator, denominator) {
  return html`<span class="fraction"><span>${numerator}</span><span>${denominator}</span></span>`;
}

/** A length in inches. */
export function inchesOf(sixteenths) {
  const [whole, numerator, denominator] = inchParts(sixteenths);
  return html`<span class="inches"><span aria-hidden="true">${whole || !numerator ? html`<span class="whole">${whole}</span>` : nothing}${
    numerator ? fraction(numerator, denominator) : nothing}</span><span class="aloud">${inchWords(sixteenths)}</span></span>`;
}

/** The nearest sixteenth. */
export function sixteenths(mm) {
  return Math.round((mm / MM_PER_INCH) * 16);
}

export function millimeters(steps) {
  return (steps * MM_PER_INCH) / 16;
}

/** A length in mm, as inches. */
export function inches(mm) {
  return inchesOf(sixteenths(mm));
}

/** "575 mm", as second text. */
export function mmText(mm) {
  return `${Math.round(mm)} mm`;
}
