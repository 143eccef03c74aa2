// One player before the visit: what is worn under the helmet, glasses, and the readings so far.
import { html, nothing } from "../../vendor/lit-html.js";
import { inches, mmText } from "../lengths.js";
import { status } from "../marks.js";
import { inOrder, nextMeasure, readingsOf, titleOf } from "../measures.js";
import { bottom, choice, heading, notice, waiting } from "../parts.js";
import { isAsked as isMinorAsked } from "./consent.js";
import * as say from "./words/before.js";

const HAIR = ["bare", "short hair", "thick hair", "braids or locs"].map((value) => ({ value, label: value }));
const OVER = [{ value: "", label: "no cap" }, { value: "skull cap", label: "skull cap" }, { value: "winter cap", label: "winter cap" }];
const GLASSES = [{ value: false, label: "no glasses" }, { value: true, label: "glasses" }];
const CAPS = new Set(["skull cap", "winter cap"]);

export function screen(view, act) {
  const { player } = view;
  if (!player) return html`${heading("This player is not on today's roster")}${waiting(view, "Asking the laptop.")}
    ${bottom({ primary: { label: "Players", act: () => act.go("#/who") } })}`;
  const now = wears(view);
  return html`${heading("What is worn under the helmet?", "Every reading is taken over it, and the fit holds only for it.")}
    ${player.symptom ? notice("no", say.SYMPTOM_WHY, say.SYMPTOM_WHO) : nothing}
    ${isMinorAsked(view) ? minor(view, act) : nothing}
    <h2 class="group">Hair</h2>${choice("Hair", HAIR, now.hair, (hair) => act.set({ hair }), "answers four")}
    <h2 class="group">Over it</h2>${choice("Over it", OVER, now.cap, (cap) => act.set({ cap }), "answers three")}
    <h2 class="group">Glasses or goggles</h2>${choice("Glasses", GLASSES, now.glasses, (glasses) => act.set({ glasses }), "answers two")}
    <h2 class="group">Readings</h2>
    <div class="rows">${inOrder(view.today.measures).map((measure) => measureRow(measure, view, act))}</div>
    ${next(view, act)}`;
}

function minor(view, act) {
  return notice("check", "Under age, and no guardian's consent is kept.", "A parent or guardian agrees before anything is measured.",
    html`<button class="key" @click=${() => leaveFor(view, act, "consent")}>${say.CONSENT}</button>`);
}

/** What is chosen here, else what the records say. */
function wears({ player, local }) {
  const worn = player.worn ?? [];
  return {
    hair: local.hair ?? worn.find((each) => !CAPS.has(each)) ?? null,
    cap: local.cap ?? worn.find((each) => CAPS.has(each)) ?? (worn.length ? "" : null),
    glasses: local.glasses ?? player.glasses,
  };
}

function measureRow(measure, view, act) {
  const taken = readingsOf(view.player, measure.key);
  const open = () => leaveFor(view, act, "reading", { measure: measure.key, ids: [], whole: null, part: null, phase: null, findings: null });
  return html`<button class="key row" @click=${open}>
    <span class="label">${titleOf(measure)}</span>
    <span>${taken.length ? html`${taken.map((reading, at) => html`${at ? ", " : ""}${inches(reading.value_mm)}`)} in
      <span class="second">${taken.map((reading) => mmText(reading.value_mm)).join(", ")}</span>` : status("unknown", "not read")}</span></button>`;
}

function next(view, act) {
  const { player, today, local } = view;
  if (player.visit) return bottom({ primary: { label: "Go on with the visit", act: () => leaveFor(view, act, `visit ${player.visit}`) } });
  const measure = nextMeasure(today.measures, player, local.skipped);
  const helmet = { label: "Choose the helmet", act: () => leaveFor(view, act, "begin", { cleared: null }) };
  if (!measure) return bottom({ primary: helmet });
  return bottom({
    between: html`<button class="key wide" @click=${helmet.act}>${helmet.label}</button>`,
    primary: {
      label: `Read: ${titleOf(measure).toLowerCase()}`,
      act: () => leaveFor(view, act, "reading", { measure: measure.key, ids: [], whole: null, part: null, phase: null, findings: null }),
    },
  });
}

/** What was chosen is kept first, where it is something new. */
async function leaveFor(view, act, where, patch = {}) {
  const { player } = view;
  const { hair, cap, glasses } = wears(view);
  const worn = [hair, cap].filter(Boolean);
  const isNew = String(worn) !== String(sorted(player.worn ?? [])) || glasses !== player.glasses;
  const remember = { ...patch, hair: null, cap: null, glasses: null };
  if (isNew && (await act.say("player wears", { player: player.id, worn, glasses }, { remember })) === false) return;
  if (!isNew) await act.set(remember);
  act.go(where.startsWith("visit ") ? `#/visit/${where.slice(6)}` : `#/player/${player.id}/${where}`);
}

function sorted(worn) {
  return [...worn.filter((each) => !CAPS.has(each)), ...worn.filter((each) => CAPS.has(each))];
}
