// A measure read within a visit: once, again with the first hidden, then both side by side and into the visit.
import { html, nothing } from "../../vendor/lit-html.js";
import { lengthKeys, sixteenthKeys } from "../length_keys.js";
import { inches, inchesOf, millimeters, mmText, sixteenths } from "../lengths.js";
import { magnified } from "../magnified.js";
import { apart, takenOver, titleOf } from "../measures.js";
import * as say from "./words/measuring.js";
import { kept } from "./kept.js";
import { page, way } from "./page.js";
import { sentence } from "./sentences.js";

const FRESH = { whole: null, part: null };

/** The measure that is asked for, or that somebody chose; with the limit at which a third reading is. */
function measureOf({ today, message, path }) {
  const key = path[3] ?? message.measure, known = today.measures.find((each) => each.key === key);
  return { ...known, ...(message.measure === key ? message : {}), key };
}

/** Whether there is anything to read under this address. */
export const isKnown = ({ today, message, path }) => message.message === "measure" || today.measures.some((each) => each.key === path[3]);

export function screen(view, act) {
  const mine = kept(view, "measuring"), taken = mine.taken ?? [], measure = measureOf(view);
  return taken.length > 1 && mine.compare ? compare(view, act, measure, taken) : take(view, act, measure, mine, taken);
}

const back = (view, act) => act.go(`#/visit/${view.visit.visit}`);

function take(view, act, measure, mine, taken) {
  const put = (patch) => act.set({ measuring: { ...mine, ...patch } });
  const typed = mine.whole != null && mine.part != null ? 16 * mine.whole + mine.part : null, time = say.TIMES[taken.length];
  const middle = sixteenths((measure.low_mm + measure.high_mm) / 2), mm = millimeters(typed ?? 0);
  const isOdd = typed !== null && (mm < measure.low_mm || mm > measure.high_mm);
  return page(view, act, {
    title: say.TITLE(titleOf(measure), time), second: sentence(measure.how), undo: false,
    body: html`${magnified(typed ?? (mine.whole != null ? 16 * mine.whole + 8 : middle), typed === null ? [] : [{ at: typed, first: false }])}
      <p class="typed">${typed === null ? "–" : html`<span class="numeral">${inchesOf(typed)} in</span> <span class="second">${mmText(mm)}</span>`}
        ${isOdd ? html`<b>${say.AGAIN}</b>` : taken.length ? html`<span class="second">${say.HIDDEN}</span>` : nothing}</p>
      ${lengthKeys(measure, mine, put)}
      <div class="ways">${typed === null ? nothing : sixteenthKeys(mine, put)}${way(say.BACK, () => back(view, act))}</div>`,
    primary: {
      label: say.KEEP(time), waits: typed === null ? say.WAITS : isOdd ? say.WAITS_SANE : "",
      act: () => put({ ...FRESH, taken: [...taken, typed], compare: taken.length > 0 }),
    },
  });
}

function compare(view, act, measure, taken) {
  const { distance, tooFar } = apart(taken.map(millimeters), measure.apart_mm), third = tooFar && taken.length < 3;
  const put = (patch) => act.set({ measuring: { ...FRESH, taken, ...patch } });
  return page(view, act, {
    title: say.BOTH(titleOf(measure)), undo: false,
    body: html`${magnified(Math.round((Math.min(...taken) + Math.max(...taken)) / 2), taken.map((at, n) => ({ at, first: n < taken.length - 1 })))}
      <p class="typed">${taken.map((at, n) => html`<span><span class="second">${say.TIMES[n]}</span> <span class="numeral">${inchesOf(at)} in</span></span>`)}</p>
      <p><b>${distance < 0.8 ? say.AGREE : html`${inches(distance)} in ${say.APART}.`}</b> <span class="second">${say.LIMIT(Math.round(distance), Math.round(measure.apart_mm))}</span> ${third ? say.THIRD_WHY : tooFar || distance < 0.8 ? nothing : say.NEAR}</p>
      <div class="ways">${third ? way(say.THIRD, () => put({ compare: false })) : nothing}${way(say.ANEW, () => put({ taken: [], compare: false }))}</div>`,
    primary: { label: say.USE, below: say.USE_SECOND, act: () => use(view, act, measure, taken) },
  });
}

/** All readings in one event: one undo takes them back. */
async function use(view, act, measure, taken) {
  const over = takenOver(view.player?.worn ?? []);
  const readings = taken.map((at) => ({ measure: measure.key, value_mm: millimeters(at), ...over }));
  await act.visit({ event: "measured", readings }, "", { remember: { measuring: null } });
  back(view, act);
}
