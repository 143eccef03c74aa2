// A check that reads a length: a tape held upright, each answer tied to its height on it.
import { html, nothing, svg } from "../../vendor/lit-html.js";
import * as say from "./words/standing_tape.js";
import { choice } from "./page.js";
import { inches, MM_PER_INCH } from "../lengths.js";
import { aloud, sentence } from "./sentences.js";

const EIGHTH = MM_PER_INCH / 8;
const ROW = 104, GAP = 16;

/** What a length says: the first answer that is short of right, right, or past it. The length decides, whatever the word. */
export function wordOf(check, mm) {
  const [low, high] = check.length.accept_mm, at = check.answers.findIndex((answer) => answer.right);
  if (mm < low - 0.01) return check.answers[Math.max(0, at - 1)].word;
  return check.answers[mm > high + 0.01 ? Math.min(check.answers.length - 1, at + 1) : at].word;
}

/** The values that are offered first, highest first: the edges of what is right, its middle, and one past either edge. */
export function usual(check) {
  const [low, high] = check.length.accept_mm.map((mm) => Math.round(mm / EIGHTH));
  const within = [high + 2, high, Math.round((low + high) / 2), low, low - 2].map((steps) => steps * EIGHTH);
  return [...new Set(within)].filter((mm) => mm >= check.length.low_mm && mm <= check.length.high_mm);
}

export function standingTape(check, chosen, choose) {
  const values = usual(check);
  if (chosen.value_mm !== undefined && !values.some((mm) => same(mm, chosen.value_mm))) values.push(chosen.value_mm);
  values.sort((one, other) => other - one);
  return html`<div class="standing">${tape(check, values, chosen.value_mm)}
    <div class="answers" role="radiogroup" aria-label=${say.ROWS}>${values.map((mm) => choice(same(mm, chosen.value_mm),
      () => choose({ value_mm: mm }), html`<span class="reading" aria-hidden="true">${inches(mm)}</span><span><b>${wordOf(check, mm)}</b><span class="second">${say.value(mm)}</span></span><span class="aloud">${aloud(mm)}</span>`, "length"))}</div></div>
    ${chosen.other ? keys(check, chosen, choose) : html`<div class="ways"><button type="button" @click=${() => choose({ ...chosen, other: true })}>${say.ANOTHER}</button></div>`}
    ${byEye(check, chosen, choose)}`;
}

const same = (one, other) => other !== undefined && Math.abs(one - other) < 0.1;

/** Where no tape is at hand: the words alone. */
function byEye(check, chosen, choose) {
  return html`<details class="more"><summary>${say.BY_EYE}</summary><div><p class="second">${say.BY_EYE_NOTE}</p>
    <div class="answers" role="radiogroup" aria-label=${say.BY_EYE}>${check.answers.map((each) => choice(chosen.word === each.word, () => choose({ word: each.word }), html`<b>${each.word}</b><span>${sentence(each.says)}</span>`))}</div></div></details>`;
}

/** Whole inches and eighths for any other value. */
function keys(check, chosen, choose) {
  const { low_mm: low, high_mm: high } = check.length;
  const steps = Math.round((chosen.value_mm ?? check.length.accept_mm[0]) / EIGHTH), whole = Math.floor(steps / 8), eighths = steps % 8;
  const most = Math.floor(high / MM_PER_INCH + 0.001), least = Math.ceil(low / MM_PER_INCH - 0.001);
  const put = (n) => choose({ ...chosen, word: undefined, value_mm: Math.min(high, Math.max(low, n * EIGHTH)) });
  return html`<div class="eighths"><div><p>${say.WHOLE}</p><div class="eighth-keys" role="group" aria-label=${say.WHOLE}>${range(least, most).map((n) => key(n === whole, () => put(8 * n + eighths), n))}</div></div>
    <div><p>${say.EIGHTHS}</p><div class="eighth-keys" role="group" aria-label=${say.EIGHTHS}>${range(0, 7).map((n) => key(n === eighths, () => put(8 * whole + n), n ? inches(n * EIGHTH) : say.EVEN))}</div></div></div>`;
}

const key = (on, tap, inside) => html`<button type="button" class="key" aria-pressed=${String(on)} @click=${tap}>${inside}</button>`;
const range = (from, to) => Array.from({ length: to - from + 1 }, (_, n) => from + n);

/** The act at the bottom: the value with its word, once one was read. */
export function lengthAct(view, act, check, chosen) {
  const read = chosen.value_mm, word = read === undefined ? chosen.word : wordOf(check, read);
  return {
    label: word === undefined ? say.READ : read === undefined ? word : html`${word}: ${inches(read)} in`,
    below: html`${say.RIGHT_HERE} ${sentence(check.length.accept)}`,
    waits: word === undefined ? say.WAITS : "",
    act: () => act.visit({ event: "answered", check: check.check, word, ...(read === undefined ? {} : { value_mm: read }) }, "", { remember: { check: null } }),
  };
}

/** The tape and a line from each height to its row; drawn for rows of the usual height. */
function tape(check, values, chosen) {
  const tall = values.length * ROW + (values.length - 1) * GAP, top = Math.max(...values) + 2 * EIGHTH, foot = Math.max(-EIGHTH, Math.min(...values) - 5 * EIGHTH);
  const y = (mm) => tall * (top - mm) / (top - foot);
  const ticks = range(Math.max(0, Math.ceil(foot / EIGHTH)), Math.floor(top / EIGHTH));
  return html`<svg class="standing-tape" viewBox=${`0 0 132 ${tall}`} preserveAspectRatio="none" role="img" aria-label=${say.TAPE}>
    <rect class="pulled" x="1" y="0" width="84" height=${tall} /><path class="edge" d=${`M1 0V${tall}M85 0V${tall}`} />
    ${ticks.map((n) => svg`<path class="notch on" d=${`M1 ${y(n * EIGHTH)}h${n % 8 ? n % 4 ? 14 : 26 : 40}`} />${n % 8 ? nothing : svg`<text x="62" y=${y(n * EIGHTH) + 10} text-anchor="middle">${n / 8}</text>`}`)}
    ${values.map((mm, n) => svg`<path class=${same(mm, chosen) ? "lead chosen-lead" : "lead"} d=${`M85 ${y(mm)}L118 ${n * (ROW + GAP) + ROW / 2}h14`} />`)}
  </svg>`;
}
