// Put the pads in, then the helmet on the head.
import { html, nothing } from "../../vendor/lit-html.js";
import * as say from "./words/put_on.js";
import { page } from "./page.js";
import { swapList, howTo, partNumbers } from "./swaps.js";
import { differing, sizes } from "./build.js";
import { AIR } from "./words/build.js";
import { model } from "./model.js";
import { chosenHelmet, helmetChoice } from "./helmet_choice.js";
import { backToProposed } from "./reserve.js";

/** What goes out and in: as the laptop has it for this helmet, else from the two builds. */
export function swapsOf(view) {
  const { message, visit } = view;
  if (visit.helmet && visit.swaps) return visit.swaps;
  const here = new Map((visit.zones ?? []).map((zone) => [zone.zone, zone.here]));
  return differing(message.before, message.build).map((zone) => ({
    zone, out: message.before.pads[zone].pad, into: message.build.pads[zone].pad, here: here.get(zone),
  }));
}

export function screen(view, act) {
  const { message, visit } = view, changes = visit.proposal?.changes ?? view.changes ?? [];
  const mine = [visit.helmet, view.ahead].find((each) => each?.shell === message.build.shell) ?? null;
  const asked = mine ? null : chosenHelmet(view, message.build.shell);
  const swaps = mine === visit.helmet && mine ? swapsOf(view) : (mine ?? asked)?.swaps ?? swapsOf(view);
  return page(view, act, {
    title: swaps.length ? say.TITLE : say.TITLE_NONE,
    second: mine ? say.helmet(mine.code, message.build.shell) : `${model(view).model}, ${say.NO_HELMET(message.build.shell)}`,
    body: html`${mine || !visit.helmets?.length ? nothing : helmetChoice(view, act, message.build.shell)}
      ${swaps.length ? swapList(swaps, partNumbers(changes)) : html`<p>${say.NONE}</p>`}
      ${swaps.some((swap) => swap.here <= 0) ? html`<p class="caution">${say.NOT_HERE}</p>` : nothing}
      ${howTo(changes)}
      ${sizes(message.build)}
      <p>${say.HAND}</p>
      <div class="ways"><button type="button" @click=${() => act.go(`#/visit/${visit.visit}/other`)}>${say.OTHER}</button>
        ${swaps.some((swap) => swap.into !== AIR) ? html`<button type="button" @click=${() => act.go(`#/visit/${visit.visit}/no-part`)}>${say.NO_PART}</button>` : nothing}
        ${view.ahead ? backToProposed(act) : nothing}</div>`,
    primary: { label: say.ON, below: say.ON_SECOND, act: () => putOn(view, act, asked) },
  });
}

/** Where nobody has spoken for a helmet yet, the one that is chosen here is. */
async function putOn(view, act, asked) {
  if (asked) await act.say("helmet reserved", { visit: view.visit.visit, helmet: asked.id });
  await act.visit({ event: "put on", build: view.message.build });
}
