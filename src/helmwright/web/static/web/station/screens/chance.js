// A chance as so many of 100 heads, on a tape from 0 to 100; always with what it is a chance of.
import { html, svg } from "../../vendor/lit-html.js";
import * as say from "./words/chance.js";

export const ofHundred = (chance) => Math.round(100 * chance);

/** The number in large, and what it is a chance of. */
export const chance = (value) => html`<p class="chance"><span class="numeral">${ofHundred(value)}</span><span>${say.OF_WHAT}</span></p>`;

/** The tape, pulled out as far as the chance goes. */
export function chanceTape(value, words) {
  const at = ofHundred(value), percent = (n) => `${n}%`;
  return html`<div class="chance-tape">
    <svg role="img" aria-label=${say.tape(at, words)}>
      <text x=${percent(Math.min(96, Math.max(4, at)))} y="34" text-anchor="middle">${at}</text>
      <rect class="pulled" x="0" y="44" width=${percent(at)} height="44" />
      <line x1="0" x2="100%" y1="44" y2="44" /><line x1="0" x2="100%" y1="88" y2="88" />
      ${Array.from({ length: 21 }, (_, n) => svg`<line class=${5 * n <= at ? "notch on" : "notch"} x1=${percent(5 * n)} x2=${percent(5 * n)} y1=${n % 2 ? 78 : 64} y2="88" />`)}
      <line class="end" x1=${percent(at)} x2=${percent(at)} y1="40" y2="92" />
    </svg>
    <p class="second scale"><span>0</span><span>${words}</span><span>${say.HUNDRED}</span></p>
  </div>`;
}
