// The pads of a build, zone by zone, under the numbers that the drawings carry.
import { html, nothing } from "../../vendor/lit-html.js";
import * as say from "./words/build.js";
import { inches } from "../lengths.js";
import { size } from "./sentences.js";

/** The zones in which two builds differ. */
export function differing(before, after) {
  return say.ORDER.filter((zone) => before.pads[zone].pad !== after.pads[zone].pad);
}

/** Eight rows: number, zone, size, what is expected there, what more is here. */
export function zoneList(build, zones) {
  const told = new Map((zones ?? []).map((zone) => [zone.zone, zone]));
  return html`<ol class="zones" aria-label=${say.LIST_NOTE}>${say.ORDER.map((zone) => zoneRow(zone, build.pads[zone].pad, told.get(zone)))}</ol>
    ${told.size ? html`<p class="second small">${say.ASSUMED}</p>` : nothing}`;
}

function zoneRow(zone, pad, told) {
  return html`<li><span class="numeral">${say.number(zone)}</span><span class="zone">${say.ZONES[zone]}</span>
    <span class="size">${size(pad)}</span><span class="second">${told ? expected(told) : nothing}</span>
    <span class="here">${told?.here === null || told?.here === undefined ? nothing : say.here(told.here)}</span></li>`;
}

function expected({ gap_mm: gap, mean_kpa: pressure }) {
  if (gap > 1) return html`${say.GAP} ${inches(gap)}`;
  return pressure === null || pressure === undefined ? nothing : say.PRESSURE(pressure);
}

/** The sizes side by side, without more words. */
export const sizes = (build) => html`<p class="second small">${say.INCHES}</p><dl class="sizes">${say.ORDER.map((zone) => html`<div><dt>${say.ZONES[zone]}</dt><dd>${size(build.pads[zone].pad)}</dd></div>`)}</dl>`;
