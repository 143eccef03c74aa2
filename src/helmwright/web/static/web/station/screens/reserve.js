// Speaking for a helmet and its parts before anybody takes them in hand; the first to ask has them.
import { html, nothing } from "../../vendor/lit-html.js";
import * as say from "./words/reserve.js";
import * as words from "./words/proposal.js";
import { AIR } from "./words/build.js";
import { way } from "./page.js";
import { sentence } from "./sentences.js";
import { kept } from "./kept.js";
import { swapsFor } from "./swaps.js";

const RESERVED = new Set(["helmet reserved", "part reserved"]);

/** Reservations of this visit that somebody else had first. They stand until a person has seen them. */
export function lost(view) {
  return (view.setAside ?? []).filter(({ entry }) => RESERVED.has(entry?.kind) && entry.payload.visit === view.visit.visit);
}

/** What somebody else took first, and what can be done. */
export function lostNotice(view) {
  const all = lost(view);
  return all.length ? html`<div class="caution" role="alert"><b>${say.LOST}</b>${all.map((each) => html`<p>${sentence(each.note)}</p>`)}<p>${say.LOST_DO}</p></div>` : nothing;
}

/** The same proposal, asked again after a reload, has the same key. */
const key = (message) => JSON.stringify(message.build);

/** Whether somebody has said that this very proposal is put together, and nobody else was first with the helmet. */
export function isTogether(view) {
  const mine = kept(view, "together"), helmet = (view.visit.helmets ?? []).find((each) => each.id === mine.helmet);
  return mine.key === key(view.message) && !lost(view).length && helmet?.good !== false;
}

/** The helmet that was spoken for with this proposal, before the laptop has said so. */
export function spokenFor(view) {
  return (view.visit.helmets ?? []).find((each) => each.id === kept(view, "together").helmet) ?? view.visit.helmet ?? null;
}

/** Out of the checks before it goes on: other helmets, other builds and the way to stop stand with the proposal. */
export const backToProposed = (act) => way(words.AGAIN, () => act.set({ together: null }));

/** Speak for the helmet and for every part that goes into it. */
export async function together(view, act, helmet) {
  const { visit, store } = view.visit;
  for (const each of lost(view)) await act.seen(each.id);
  await act.say("helmet reserved", { visit, helmet: helmet.id });
  for (const { zone, into } of swapsFor(helmet, view.message.build)) {
    if (into !== AIR) await act.say("part reserved", { visit, store: store?.id ?? store, zone, size: into });
  }
  await act.set({ together: { key: key(view.message), helmet: helmet.id } });
}
