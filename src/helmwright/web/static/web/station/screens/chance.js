// A chance as so many of 100 heads, on a tape from 0 to 100; always with what it is a chance of.
import { html, svg, nothing } from "../../vendor/lit-html.js";
import * as say from "./words/chance.js";

export const ofHundred = (chance) => Math.round(100 * chance);

/** The number in large, and what it is a chance of. */
export const chance = (value) => html`<p class="chance"><span class="numeral">${ofHundred(value)}</span><span>${say.OF_WHAT}</span></p>`;

/** The tape, pulled out as far as the chance goes. */
export function chanceTape(value, words, before = null) {
  const at = ofHundred(value), was = before === null ? null : ofHundred(before);
  return html`<div class="chance-tape">
    <svg viewBox="0 0 1000 92" role="img" aria-label=${say.tape(at, was, words)}>
      ${was === null ? nothing : svg`<text class="was" x=${inside(was)} y="30" text-anchor="middle">${was}</text>
        <path class="go" d=${`M${10 * was + 34} 20H${Math.max(10 * at - 44, 10 * was + 36)}`} />`}
      <text class="is" x=${inside(at)} y="34" text-anchor="middle">${at}</text>
      <rect class="pulled" x="0" y="44" width=${10 * at} height="44" />
      <path class="edge" d="M0 44H1000M0 88H1000" />
      ${Array.from({ length: 51 }, (_, n) => svg`<path class=${2 * n <= at ? "notch on" : "notch"} d=${`M${20 * n} 88v${n % 5 ? -10 : -24}`} />`)}
      ${was === null ? nothing : svg`<path class="then" d=${`M${10 * was} 44v44`} />`}
      <path class="end" d=${`M${10 * at} 40v52`} />
    </svg>
    <p class="second scale"><span>0</span><span>${words}</span><span>${say.HUNDRED}</span></p>
  </div>`;
}

const inside = (at) => Math.min(970, Math.max(30, 10 * at));
