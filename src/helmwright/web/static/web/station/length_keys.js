// Keys for a length: whole inches left, eighths right, each with the tick that a real tape shows.
import { html, nothing } from "../vendor/lit-html.js";
import { fraction, inchParts, inchWords, MM_PER_INCH } from "./lengths.js";

const EIGHTHS = [0, 2, 4, 6, 8, 10, 12, 14];
const TICKS = { 1: 16, 2: 34, 4: 28, 8: 22 };

/** @param range {low_mm, high_mm} for the whole inches that are offered
 *  @param whole inches, @param part sixteenths: what is chosen, null for nothing yet
 *  @param set is called with {whole} or {part} */
export function lengthKeys({ low_mm, high_mm }, { whole = null, part = null }, set) {
  const first = Math.floor(low_mm / MM_PER_INCH);
  const wholes = Array.from({ length: Math.floor(high_mm / MM_PER_INCH) - first + 1 }, (_, at) => first + at);
  return html`<div class="length-keys">
    <div><p class="second" id="wholes">Whole inches</p>
      <div class="keys two" role="group" aria-labelledby="wholes">${wholes.map((each) => html`
        <button class="key big numeral" aria-pressed=${String(each === whole)} @click=${() => set({ whole: each })}>${each}</button>`)}</div></div>
    <div><p class="second" id="eighths">and eighths</p>
      <div class="keys two" role="group" aria-labelledby="eighths">${EIGHTHS.map((each) => eighth(each, part, set))}</div></div>
  </div>`;
}

function eighth(each, part, set) {
  const [, numerator, denominator] = inchParts(each);
  const tick = numerator ? TICKS[denominator] : 48;
  return html`<button class="key big" aria-pressed=${String(each === part)} aria-label=${numerator ? inchWords(each) : "even inches"}
    @click=${() => set({ part: each })}>
    <svg class="tick" viewBox="0 0 4 56" aria-hidden="true"><path d=${`M2 56V${56 - tick}`} /></svg>
    ${numerator ? html`<span class="numeral">${fraction(numerator, denominator)}</span>` : html`<span class="label">even</span>`}</button>`;
}

/** The keys that go a sixteenth down or up; the whole inch follows. */
export function sixteenthKeys({ whole = null, part = null }, set) {
  if (whole === null || part === null) return nothing;
  const by = (step) => () => {
    const steps = whole * 16 + part + step;
    set({ whole: Math.floor(steps / 16), part: steps % 16 });
  };
  return html`<button class="key step" aria-label="A sixteenth less" @click=${by(-1)}><span class="numeral">${fraction(1, 16)}</span><span class="below">less</span></button>
    <button class="key step" aria-label="A sixteenth more" @click=${by(1)}><span class="numeral">${fraction(1, 16)}</span><span class="below">more</span></button>`;
}
