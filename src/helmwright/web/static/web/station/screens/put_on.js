// Put the pads in, then the helmet on the head.
import { html, nothing } from "../../vendor/lit-html.js";
import * as say from "./words/put_on.js";
import { page } from "./page.js";
import { swapList, howTo, partNumbers } from "./swaps.js";
import { differing, sizes } from "./build.js";
import { AIR } from "./words/build.js";
import { model } from "./model.js";

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
  const { message, visit } = view, swaps = swapsOf(view), changes = visit.proposal?.changes ?? view.changes ?? [];
  return page(view, act, {
    title: swaps.length ? say.TITLE : say.TITLE_NONE,
    second: visit.helmet ? say.helmet(visit.helmet.code, message.build.shell) : `${model(view).model}, ${say.NO_HELMET(message.build.shell)}`,
    body: html`${swaps.length ? swapList(swaps, partNumbers(changes)) : html`<p>${say.NONE}</p>`}
      ${swaps.some((swap) => swap.here <= 0) ? html`<p class="caution">${say.NOT_HERE}</p>` : nothing}
      ${howTo(changes)}
      ${sizes(message.build)}
      <p>${say.HAND}</p>
      <div class="ways"><button type="button" @click=${() => act.go(`#/visit/${visit.visit}/other`)}>${say.OTHER}</button>
        ${swaps.some((swap) => swap.into !== AIR) ? html`<button type="button" @click=${() => act.go(`#/visit/${visit.visit}/no-part`)}>${say.NO_PART}</button>` : nothing}</div>`,
    primary: { label: say.ON, below: say.ON_SECOND, act: () => act.visit({ event: "put on", build: message.build }) },
  });
}
