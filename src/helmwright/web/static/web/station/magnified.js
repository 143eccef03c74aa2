// The tape under a glass: some inches of it about a reading.
import { html, nothing, svg } from "../vendor/lit-html.js";
import { inchParts, inchWords } from "./lengths.js";

const STEP = 26;
const REACH = 31;
const WIDTH = 1640;
const MIDDLE = WIDTH / 2;
const LENGTHS = { 1: 64, 2: 52, 4: 42, 8: 32, 16: 18 };

/** @param about sixteenths in the middle
 *  @param marks {at, first}[]: readings in sixteenths; the first ones dashed, the last one solid */
export function magnified(about, marks) {
  const steps = Array.from({ length: 2 * REACH + 1 }, (_, at) => about - REACH + at).filter((step) => step >= 0);
  const words = marks.length ? `Tape at ${marks.map(({ at }) => inchWords(at)).join(", then ")}` : "Tape, nothing read yet";
  return html`<svg class="magnified" role="img" aria-label=${words} viewBox="0 0 ${WIDTH} 184" preserveAspectRatio="xMidYMin slice">
    <rect class="pulled" x="0" y="1" width=${WIDTH} height="146" /><path class="edge" d="M0 1H${WIDTH}M0 147H${WIDTH}" />
    ${steps.map((step) => tick(step, MIDDLE + (step - about) * STEP))}
    ${marks.map(({ at, first }) => pointer(MIDDLE + (at - about) * STEP, first))}
    ${marks.length > 1 ? dimension(marks.map(({ at }) => MIDDLE + (at - about) * STEP)) : nothing}
  </svg>`;
}

function tick(step, x) {
  const [whole, numerator, denominator] = inchParts(step);
  const line = svg`<path class=${numerator ? "tick" : "tick inch"} d=${`M${x} 147v${-LENGTHS[denominator]}`} />`;
  if (!numerator) return svg`${line}<text class="whole" x=${x} y="62" text-anchor="middle">${whole}</text>`;
  if (denominator === 16) return line;
  return svg`${line}<text class="part" x=${x} y="44" text-anchor="middle">${numerator}</text><path class="tick" d=${`M${x - 9} 48h18`} />
    <text class="part" x=${x} y="66" text-anchor="middle">${denominator}</text>`;
}

function pointer(x, first) {
  return svg`<g class=${first ? "pointer first" : "pointer"}>
    <path class="head" d=${`M${x - 14} 2h28l-14 18z`} /><path class="line" d=${`M${x} 80V147`} /><path class="line below" d=${`M${x} 147V184`} /></g>`;
}

function dimension(xs) {
  const [low, high] = [Math.min(...xs), Math.max(...xs)];
  if (high - low < 2 * STEP) return nothing;
  return svg`<g class="dimension"><path class="line" d=${`M${low + 4} 166H${high - 4}`} />
    <path class="head" d=${`M${low + 4} 166l14-6v12zM${high - 4} 166l-14-6v12z`} /></g>`;
}
