// Which helmet of the proposed shell: the one with the fewest changes is chosen until somebody knows better.
import { html, nothing } from "../../vendor/lit-html.js";
import * as say from "./words/proposal.js";
import * as build from "./words/build.js";
import { choice } from "./page.js";
import { kept, keep } from "./kept.js";
import { status } from "../marks.js";
import { sentence } from "./sentences.js";

/** The helmets that may be taken for this shell. */
export function candidates(view, shell) {
  const all = (view.visit.helmets ?? []).filter((each) => each.shell === shell);
  const own = view.visit.helmet;
  if (own && own.shell === shell && !all.some((each) => each.id === own.id)) {
    return [{ ...own, changes: (view.visit.swaps ?? []).length, swaps: view.visit.swaps ?? [], good: own.good ?? true, why: own.why ?? "" }, ...all];
  }
  return all;
}

/** The one that is chosen, or would be. */
export function chosenHelmet(view, shell) {
  const all = candidates(view, shell);
  const wished = kept(view, "helmet").id ?? view.visit.helmet?.id;
  const wish = all.find((each) => each.id === wished);
  return wish?.good ? wish : all.find((each) => each.good) ?? null;
}

/** Rows to choose from; one that is not good to issue says why and cannot be taken. */
export function helmetChoice(view, act, shell) {
  const all = candidates(view, shell), chosen = chosenHelmet(view, shell);
  if (!all.length) return html`<div class="caution">${status("check", say.NONE(shell))}<p>${say.NONE_DO}</p></div>`;
  return html`<section><h2>${say.WHICH}</h2>
    <div class="answers" role="radiogroup" aria-label=${say.WHICH}>${all.filter((each) => each.good).map((each) => choice(each.id === chosen?.id,
      () => keep(view, act, "helmet", { id: each.id }),
      html`<b>${each.code}</b><span>${build.changes(each.changes)}</span>`, "helmet"))}</div>
    ${all.every((each) => each.good) ? nothing : html`<ul class="lines">${all.filter((each) => !each.good).map((each) => html`<li>${status("no", `${each.code}: ${say.NOT_GOOD}`)} <span>${sentence(each.why)}</span></li>`)}</ul>`}
    ${chosen ? nothing : html`<p>${say.NONE(shell)} ${say.NONE_DO}</p>`}</section>`;
}
