// A signature: drawn with a finger, or the name typed by whoever cannot or will not draw.
import { html, nothing } from "../../vendor/lit-html.js";
import SignaturePad from "../../vendor/signature_pad.js";
import * as say from "./words/sign.js";
import { sign, signing } from "./signing.js";

const NOTHING = { strokes: [], typed: null };

/** What stands in a field. */
export const signatureOf = (view, who) => signing(view)[who] ?? NOTHING;

/** What is said of it: the strokes in hundredths of the field's height, or the typed name. */
export const said = ({ strokes, typed }) => typed === null ? strokes : typed.trim();

/** By the laptop's rule: letters of any script in a typed one, the length of a drawn one. */
export const isSigned = ({ typed, strokes }, { letters, drawn }) => typed === null
  ? lengthOf(strokes) >= drawn : (typed.match(/\p{L}/gu) ?? []).length >= letters;

const lengthOf = (strokes) => strokes.reduce((sum, points) => sum + points.slice(1).reduce(
  (long, [x, y], n) => long + Math.hypot(x - points[n][0], y - points[n][1]), 0), 0);

export function signature(view, act, who, words) {
  const mine = signatureOf(view, who), put = (patch) => sign(view, act, { [who]: { ...NOTHING, ...patch } });
  if (mine.typed !== null) {
    return html`<div class="signature"><label class="field"><span>${words}</span><span class="second">${say.TYPED}</span>
      <input type="text" maxlength="120" autocomplete="off" .value=${mine.typed} @input=${(event) => put({ typed: event.target.value })}></label>
      <button type="button" @click=${() => put({})}>${say.DRAW_INSTEAD}</button></div>`;
  }
  return html`<div class="signature"><p>${words}</p>
    <div class="pad-field">${mine.strokes.length ? nothing : html`<span class="second">${say.DRAW}</span>`}${canvas(who, mine.strokes, put)}</div>
    <div class="pair"><button type="button" @click=${() => put({ typed: "" })}>${say.TYPE}</button>
    ${mine.strokes.length ? html`<button type="button" @click=${() => put({})}>${say.CLEAR}</button>` : nothing}</div></div>`;
}

const pads = new Map();

/** One field a signer; it is drawn again from what is kept. */
function canvas(who, strokes, put) {
  const pad = pads.get(who) ?? made(who);
  pad.put = put;
  if (JSON.stringify(strokes) !== JSON.stringify(pad.strokes)) { pad.strokes = strokes; redraw(pad); }
  return pad.element;
}

function made(who) {
  const element = document.createElement("canvas");
  element.setAttribute("role", "img");
  element.setAttribute("aria-label", say.DRAW);
  const pad = { element, strokes: [], put: () => {}, drawn: new SignaturePad(element, { minWidth: 1.2, maxWidth: 3 }) };
  pad.drawn.addEventListener("endStroke", () => { pad.strokes = hundredths(pad); pad.put({ strokes: pad.strokes }); });
  new ResizeObserver(() => redraw(pad)).observe(element);
  pads.set(who, pad);
  return pad;
}

function hundredths({ drawn, element }) {
  const unit = element.clientHeight / 100 || 1;
  return drawn.toData().map(({ points }) => points.map(({ x, y }) => [Math.round(x / unit), Math.round(y / unit)]));
}

function redraw({ element, drawn, strokes }) {
  const { clientWidth: width, clientHeight: height } = element, ratio = devicePixelRatio || 1;
  if (!width) return;
  Object.assign(element, { width: width * ratio, height: height * ratio });
  element.getContext("2d").scale(ratio, ratio);
  const ink = getComputedStyle(element).color, unit = height / 100;
  drawn.penColor = ink;
  drawn.fromData(strokes.map((points) => ({ penColor: ink, dotSize: 2, minWidth: 1.2, maxWidth: 3, velocityFilterWeight: 0.7, compositeOperation: "source-over",
    points: points.map(([x, y], n) => ({ x: x * unit, y: y * unit, pressure: 0.5, time: 16 * n })) })));
}
