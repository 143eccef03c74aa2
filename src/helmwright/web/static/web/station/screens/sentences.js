// Sentences and sizes from the laptop, with every typed fraction built.
import { html, nothing } from "../../vendor/lit-html.js";
import { fraction, inches, inchWords, MM_PER_INCH, sixteenths } from "../lengths.js";

const FRACTION = /(?:(\d+) )?(\d+)\/(2|4|8|16)(?!\d)/g;

/** A text as pieces, its fractions built and read aloud. */
export function sentence(text) {
  const out = [];
  let end = 0;
  for (const found of text.matchAll(FRACTION)) {
    out.push(text.slice(end, found.index), built(found[1] ?? "", +found[2], +found[3]));
    end = found.index + found[0].length;
  }
  out.push(text.slice(end));
  return out;
}

function built(whole, above, below) {
  const words = inchWords((whole ? 16 * +whole : 0) + 16 * above / below).replace(/ (of an inch|inch|inches)$/, "");
  return html`<span class="inches"><span aria-hidden="true">${whole ? html`<span class="whole">${whole}</span>` : nothing}${fraction(above, below)}</span><span class="aloud">${words}</span></span>`;
}

/** A pad's size as written on its bag; the unit is left to the heading above it. */
export const size = (label) => html`<span class="numeral">${sentence(label.replace(/ in$/, ""))}</span>`;

/** A length in inches rounded to an eighth. */
export const eighths = (mm) => inches(Math.round(mm / MM_PER_INCH * 8) / 8 * MM_PER_INCH);
export const aloud = (mm) => inchWords(sixteenths(mm));
