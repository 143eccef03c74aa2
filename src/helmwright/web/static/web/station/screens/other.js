// Ways round what is proposed: another build, the same one left as it is, a part that is not here.
import { html, nothing } from "../../vendor/lit-html.js";
import * as say from "./words/other.js";
import * as words from "./words/build.js";
import { differing, sizes } from "./build.js";
import { ofHundred } from "./chance.js";
import { chosenHelmet, helmetChoice } from "./helmet_choice.js";
import { keep, kept } from "./kept.js";
import { choice, page, way } from "./page.js";
import { swapsOf } from "./put_on.js";
import { reasons, reasonOf } from "./reason.js";
import { size } from "./sentences.js";

const back = (view, act) => act.go(`#/visit/${view.visit.visit}`);
const proposed = (view) => view.message?.build ?? view.visit.build;

/** Another build than the proposed one, from those that the program thinks of next or pad by pad. */
export function other(view, act) {
  const mine = kept(view, "other"), now = proposed(view), all = [...own(view, proposed(view)), ...view.visit.other_builds ?? []];
  const build = mine.build ?? null, reason = reasonOf(view, "other");
  const there = build && view.visit.helmet?.shell !== build.shell ? withHelmets(view, build) : null;
  const helmet = there && chosenHelmet(there, build.shell);
  return page(view, act, {
    title: say.TITLE, second: say.NOTE,
    body: html`${all.length ? html`<h2>${say.BUILDS}</h2><div class="answers" role="radiogroup" aria-label=${say.BUILDS}>${all.map((each) => choice(
      same(each.build, build), () => keep(view, act, "other", { build: each.build }), option(each, now)))}</div>` : nothing}
      ${byPad(view, act, build ?? now)}
      ${there ? helmetChoice(there, act, build.shell) : nothing}
      ${reasons(view, act, "other", say.REASON, say.REASONS)}
      <div class="ways">${way(say.BACK, () => back(view, act))}</div>`,
    primary: {
      label: say.ON, below: say.ON_SECOND, act: () => putOn(view, act, build, reason, "other", helmet),
      waits: !build || same(build, now) ? say.WAITS_BUILD : reason ? "" : say.WAITS_REASON,
    },
  });
}

/** The helmet that the visit began with, as it is, where another shell is proposed. */
function own({ visit }, now) {
  const { helmet } = visit;
  if (!helmet || helmet.shell === now.shell || helmet.good === false) return [];
  const pads = Object.fromEntries(words.ORDER.map((zone) => [zone, { pad: helmet.pads[zone] }]));
  return [{ build: { shell: helmet.shell, pads }, code: helmet.code }];
}

const same = (one, another) => Boolean(one && another) && one.shell === another.shell && !differing(one, another).length;

function option({ build, found_right: chance, lacking, code = "" }, now) {
  if (code) return html`<b>${say.OWN_HELMET(code, build.shell)}</b><span>${say.OWN_HELMET_NOTE}</span>`;
  const differs = differing(now, build);
  return html`<b>${build.shell === now.shell ? nothing : html`${words.shell(build.shell)}. `}${differs.map((zone, n) => html`${n ? ", " : nothing}${words.ZONES[zone]} ${size(build.pads[zone].pad)}`)}</b>
    <span>${say.BUILD(ofHundred(chance))} ${here(lacking)}</span>`;
}

/** What of a build is in this store, by the count; nothing where the laptop does not say. */
function here(lacking) {
  if (lacking === undefined) return nothing;
  if (lacking === null) return say.NO_SHELL;
  return lacking.length ? html`${say.LACKING} ${lacking.map(({ zone, pad }, n) => html`${n ? ", " : nothing}${words.ZONES[zone]} ${size(pad)}`)}.` : say.ALL_HERE;
}

/** Every zone with the pads that the model offers there. */
function byPad(view, act, build) {
  const offers = view.visit.pads;
  const step = (zone) => {
    const all = offers[zone], at = all.indexOf(build.pads[zone].pad);
    keep(view, act, "other", { build: { ...build, pads: { ...build.pads, [zone]: { pad: all[(at + 1) % all.length] } } } });
  };
  return html`<h2>${say.OWN}</h2><p class="second">${say.OWN_NOTE} ${words.LEFT}</p>
    <div class="pads">${words.ORDER.map((zone) => html`<button type="button" ?disabled=${offers[zone].length < 2} @click=${() => step(zone)}><span>${words.ZONES[zone]}</span>${size(build.pads[zone].pad)}</button>`)}</div>`;
}

/** The view with the helmets in which a build can be: those that the laptop lists for it, or for another of its shell. */
function withHelmets(view, build) {
  const all = [...view.visit.other_builds ?? []].sort((one, another) => same(another.build, build) - same(one.build, build));
  const listed = all.find((each) => each.build.shell === build.shell)?.helmets;
  return { ...view, visit: { ...view.visit, helmets: listed ?? view.visit.helmets } };
}

/** In a helmet of another shell it is spoken for first, so that it is known which one is on the head. */
async function putOn(view, act, build, reason, screen, helmet = null) {
  if (helmet) await act.say("helmet reserved", { visit: view.visit.visit, helmet: helmet.id });
  await act.visit({ event: "put on", build }, reason, { remember: { [screen]: null } });
  back(view, act);
}

/** What is on the head stays, against the proposal. */
export function leave(view, act) {
  const build = view.message?.before, reason = reasonOf(view, "leave");
  return page(view, act, {
    title: say.LEAVE_TITLE, second: say.LEAVE_NOTE,
    body: html`${build ? sizes(build) : nothing}${reasons(view, act, "leave", say.REASON, say.LEAVE_REASONS)}
      <div class="ways">${way(say.BACK, () => back(view, act))}</div>`,
    primary: { label: say.LEAVE_ON, below: say.ON_SECOND, act: () => putOn(view, act, build, reason, "leave"), waits: reason ? "" : say.WAITS_REASON },
  });
}

/** The shelf has less than its count says: the program proposes what can be made without the part. */
export function noPart(view, act) {
  const swaps = swapsOf(view).filter((swap) => swap.into !== words.AIR), mine = kept(view, "no-part");
  const chosen = swaps.find((swap) => swap.zone === mine.zone) ?? (swaps.length === 1 ? swaps[0] : null);
  return page(view, act, {
    title: say.NO_PART_TITLE, second: say.NO_PART_NOTE,
    body: html`<div class="answers" role="radiogroup" aria-label=${say.NO_PART_WHICH}>${swaps.map((swap) => choice(swap === chosen,
      () => keep(view, act, "no-part", { zone: swap.zone }), html`<b>${words.pad(swap.zone)}</b>${size(swap.into)}`))}</div>
      <div class="ways">${way(say.BACK, () => back(view, act))}</div>`,
    primary: { label: say.NO_PART_ACT, act: () => none(view, act, chosen), waits: chosen ? "" : say.WAITS_PART },
  });
}

async function none(view, act, swap) {
  const { store, sheet, visit } = view.visit;
  const counted = { store: store?.id ?? store, sheet, place: swap.place ?? swap.zone, size: swap.into, count: 0 };
  await act.say("parts counted", counted);
  await act.visit({ event: "not here", place: swap.zone, size: swap.into }, "", { remember: { "no-part": null, together: null } });
  act.go(`#/visit/${visit}`);
}
