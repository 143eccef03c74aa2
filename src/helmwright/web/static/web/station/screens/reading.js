// One measure: read, read again with the first hidden, then both side by side.
import { html, nothing } from "../../vendor/lit-html.js";
import { lengthKeys, sixteenthKeys } from "../length_keys.js";
import { inches, inchesOf, millimeters, mmText, sixteenths } from "../lengths.js";
import { magnified } from "../magnified.js";
import { apart, inOrder, inShort, nextMeasure, takenOver, titleOf } from "../measures.js";
import { bottom, heading, notice, waiting } from "../parts.js";

const TIMES = ["first", "second", "third", "fourth"];
const MOST = 4;
const BLANK = { whole: null, part: null };

export function screen(view, act) {
  const { player, today } = view;
  if (!player) return html`${heading("This player is not on today's roster")}${waiting(view, "Asking the laptop.")}
    ${bottom({ primary: { label: "Players", act: () => act.go("#/who") } })}`;
  const measure = measureOf(view);
  if (!measure) return allRead(view, act);
  const taken = takenHere(view, measure);
  return view.local.phase === "compare" && taken.length > 1
    ? compare(view, act, measure, taken, today)
    : take(view, act, measure, taken);
}

function measureOf({ player, today, local }) {
  return today.measures.find(({ key }) => key === local.measure) ?? nextMeasure(today.measures, player, local.skipped);
}

/** Readings of this round, in order; what was read on other days does not stand beside them. */
function takenHere({ player, local }, measure) {
  return (local.ids ?? []).map((id) => player.readings.find((each) => each.id === id)).filter((each) => each?.measure === measure.key);
}

function take(view, act, measure, taken) {
  const { local } = view;
  const typed = local.whole != null && local.part != null ? local.whole * 16 + local.part : null;
  const time = TIMES[taken.length] ?? "next";
  const about = typed ?? (local.whole != null ? local.whole * 16 + 8 : sixteenths((measure.low_mm + measure.high_mm) / 2));
  const { first, rest } = inShort(measure.how);
  const odd = typed === null ? null : outside(measure, millimeters(typed));
  return html`${heading(`${titleOf(measure)}, ${time} reading`, local.how ? measure.how : first, rest ? how(local, act) : nothing)}
    ${magnified(about, typed === null ? [] : [{ at: typed, first: false }])}
    <div class="read">
      <p class="value">${typed === null ? html`<span class="numeral second">–</span>` : html`<span class="numeral">${inchesOf(typed)} in</span> <span class="second">${mmText(millimeters(typed))}</span>`}</p>
      <div>${odd ? notice("check", odd, "Read the tape again.") : taken.length ? html`<p class="second">${hidden(taken.length)}</p>` : nothing}</div>
    </div>
    ${lengthKeys(measure, local, act.set)}
    ${bottom({
      undo: undoOf(view, act, taken, typed !== null || local.whole != null || local.part != null),
      between: typed === null && !taken.length ? html`<button class="key wide" @click=${() => skip(view, act, measure)}>Skip it</button>` : sixteenthKeys(local, act.set),
      primary: {
        label: typed === null ? `Keep the ${time} reading` : html`Keep ${inchesOf(typed)} in`,
        below: `${time} reading`,
        waits: typed === null ? "inches and eighths" : odd ? "a reading that a head can have" : "",
        act: () => keepReading(view, act, measure, typed, taken),
      },
    })}`;
}

function how({ how: shown = false }, act) {
  return html`<button class="key more" aria-expanded=${String(shown)} @click=${() => act.set({ how: shown ? null : true })}>${shown ? "Shorter" : "How"}</button>`;
}

function hidden(count) {
  return count === 1
    ? "The first reading is kept, and hidden while the second is taken."
    : "The readings before are kept, and hidden while this one is taken.";
}

function outside({ low_mm, high_mm }, mm) {
  if (mm < low_mm) return html`Under ${inches(low_mm)} in. No head reads so small.`;
  if (mm > high_mm) return html`Over ${inches(high_mm)} in. No head reads so large.`;
  return null;
}

async function keepReading(view, act, measure, typed, taken) {
  const { player, local } = view;
  const payload = { player: player.id, measure: measure.key, value_mm: millimeters(typed), ...takenOver(player.worn ?? []) };
  const id = act.id();
  const remember = { ...BLANK, measure: measure.key, ids: [...(local.ids ?? []), id], phase: taken.length ? "compare" : null, findings: null };
  if (!(await act.say("reading taken", payload, { remember, id }))) return;
  lookOver(act, player, [...player.readings, { ...payload, id }]);
}

/** The laptop holds the readings against each other; without it nothing is said, and nothing waits. */
async function lookOver(act, player, readings) {
  const asked = readings.map(({ measure, value_mm, over, beneath }) => ({ measure, value_mm, over, beneath: beneath ?? null }));
  const { findings } = await act.lookOver(player.id, asked).catch(() => ({ findings: [] }));
  if (findings.length) await act.set({ findings });
}

function compare(view, act, measure, taken) {
  const { distance, tooFar } = apart(taken.map((each) => each.value_mm), measure.apart_mm);
  const steps = taken.map((each) => sixteenths(each.value_mm));
  const more = tooFar && taken.length < MOST && taken.length < 3;
  const following = nextMeasure(view.today.measures, view.player, [...(view.local.skipped ?? []), measure.key]);
  return html`${heading(`${titleOf(measure)}, ${taken.length} readings`)}
    ${magnified(Math.round((Math.min(...steps) + Math.max(...steps)) / 2), steps.map((at, which) => ({ at, first: which < steps.length - 1 })))}
    <div class="side-by-side">${taken.map((each, at) => html`<p class=${at < taken.length - 1 ? "value first" : "value"}>
      <span class="second">${TIMES[at]}</span> <span class="numeral">${inches(each.value_mm)} in</span> <span class="second">${mmText(each.value_mm)}</span></p>`)}</div>
    ${difference(distance, tooFar, measure, taken.length)}
    ${suspects(view, measure)}
    <div class="rows">${inOrder(view.today.measures).map((each) => html`<p class="line"><span>${titleOf(each)}</span>
      <span>${each.key === measure.key ? "read just now" : view.player.readings.some((reading) => reading.measure === each.key) ? "read" : "not read"}</span></p>`)}</div>
    ${bottom({
      undo: undoOf(view, act, taken, false),
      between: more ? html`<button class="key wide" @click=${() => onward(view, act, measure)}>Go on with these</button>`
        : html`<button class="key wide" @click=${() => act.set({ ...BLANK, phase: null })}>Read once more</button>`,
      primary: more
        ? { label: `${taken.length === 2 ? "Third" : "Next"} reading`, act: () => act.set({ ...BLANK, phase: null }) }
        : { label: following ? `Next: ${titleOf(following).toLowerCase()}` : "Choose the helmet", act: () => onward(view, act, measure) },
    })}`;
}

function difference(distance, tooFar, measure, count) {
  const limit = html`(${mmText(distance)}; limit ${mmText(measure.apart_mm)}, assumed)`;
  if (!tooFar) return html`<p class="verdict">${distance < 0.8 ? "They agree." : html`${inches(distance)} in apart: clean readings can be so far apart.`} <span class="second">${limit}</span></p>`;
  const title = html`${inches(distance)} in apart.`;
  return count < 3
    ? notice("check", title, html`More than clean readings differ nineteen times of twenty. Take a third. <span class="second">${limit}</span> The program then uses all three.`)
    : notice("check", title, html`<span class="second">${limit}</span> The program uses all of them, and says so where it leaves one out. A wrong one can be undone.`);
}

function suspects({ local }, measure) {
  return (local.findings ?? []).map((finding) => notice("check", finding.message, finding.suggestion ?? ""));
}

function undoOf(view, act, taken, isTyped) {
  if (isTyped) return { act: () => act.set(BLANK) };
  if (!taken.length) return { label: "back", act: () => act.go(`#/player/${view.player.id}`) };
  const last = taken.at(-1);
  const remember = { ids: view.local.ids.filter((id) => id !== last.id), phase: null, findings: null, ...BLANK };
  return { act: () => act.say("reading withdrawn", { player: view.player.id, reading: last.id }, { remember, corrects: last.id }) };
}

const FRESH = { ...BLANK, ids: null, phase: null, findings: null, measure: null };

async function onward(view, act, measure) {
  const skipped = [...(view.local.skipped ?? []), measure.key];
  const following = nextMeasure(view.today.measures, view.player, skipped);
  await act.set({ ...FRESH, measure: following?.key ?? null });
  if (!following) act.go(`#/player/${view.player.id}/begin`);
}

async function skip(view, act, measure) {
  const skipped = [...new Set([...(view.local.skipped ?? []), measure.key])];
  const following = nextMeasure(view.today.measures, view.player, skipped);
  await act.set({ ...FRESH, skipped, measure: following?.key ?? null });
  if (!following) act.go(`#/player/${view.player.id}/begin`);
}

function allRead(view, act) {
  return html`${heading("Every measure is read or skipped")}
    ${bottom({
      undo: { label: "back", act: () => act.go(`#/player/${view.player.id}`) },
      primary: { label: "Choose the helmet", act: () => act.go(`#/player/${view.player.id}/begin`) },
    })}`;
}
