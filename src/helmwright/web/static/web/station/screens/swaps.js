// Pad by pad: what goes out, what goes in, and whether it is here.
import { html, nothing } from "../../vendor/lit-html.js";
import * as say from "./words/put_on.js";
import * as build from "./words/build.js";
import { size } from "./sentences.js";
import { status } from "../marks.js";
import { more, steps } from "./page.js";

export const ARROW = html`<svg class="arrow small" viewBox="0 0 44 24" role="img" aria-label="then"><path d="M2 12h38M29 2l11 10-11 10"/></svg>`;

/** One row a swap. */
export function swapList(swaps, numbers = new Map()) {
  return html`<ol class="swaps">${swaps.map((swap) => html`<li>
    <span class="numeral">${build.number(swap.zone)}</span><b class="zone">${build.pad(swap.zone)}</b>
    <span class="swap"><s><span class="aloud">${say.OUT} </span>${size(swap.out)}</s>${ARROW}<span class="into"><span class="aloud">${say.INTO} </span>${size(swap.into)}</span></span>
    <span class="second">${numbers.get(swap.zone) ? say.PART_NUMBER(numbers.get(swap.zone)) : nothing}</span>
    <span class="here">${stock(swap)}</span></li>`)}</ol>`;
}

function stock({ here, into }) {
  if (here === null || here === undefined || into === build.AIR) return nothing;
  return here <= 0 ? status("check", build.here(0)) : build.here(here);
}

/** How each kind of part is changed, step by step, and whose steps these are. */
export function howTo(changes) {
  return changes.filter((each) => each.steps.length).map((each) => more(say.HOW(each.part), html`${steps(each.steps)}<p class="second">${each.by_maker ? say.MAKER : each.whose}</p>`));
}

/** The part numbers of what goes in, by zone. */
export const partNumbers = (changes) => new Map(changes.flatMap((each) => each.swaps.map((swap) => [swap.zone, swap.part_number])));

/** What changes in a helmet for a build: as the laptop has it, and only what differs from it. */
export const swapsFor = (helmet, wanted) => (helmet.swaps ?? []).filter((swap) => wanted.pads[swap.zone]?.pad === swap.into);
