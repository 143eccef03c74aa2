// Which helmet of the proposed shell: the first, which lacks and changes least, is chosen until somebody knows better.
import { html, nothing } from "../../vendor/lit-html.js";
import * as say from "./words/proposal.js";
import * as build from "./words/build.js";
import { choice, more } from "./page.js";
import { kept, keep } from "./kept.js";
import { status } from "../marks.js";
import { sentence } from "./sentences.js";

/** So many are shown; the rest open on a tap. */
const FIRST = 3;

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

const radios = (view, act, all, chosen) => html`<div class="answers" role="radiogroup" aria-label=${say.WHICH}>${all.map((each) => choice(each.id === chosen?.id,
  () => keep(view, act, "helmet", { id: each.id }),
  html`<b>${each.code}</b><span>${build.changes(each.changes)}</span>${each.lacking ? status("check", build.lacking(each.lacking)) : nothing}`, "helmet"))}</div>`;

/** Those that cannot be taken, and why; the first few, then all. */
function cannot(all, name, words, every) {
  const rows = (some) => html`<ul class="lines">${some.map((each) => html`<li>${status(name, `${each.code}: ${words}`)} <span>${sentence(each.why)}</span></li>`)}</ul>`;
  return all.length ? html`${rows(all.slice(0, FIRST))}${all.length > FIRST ? more(every(all.length), rows(all.slice(FIRST))) : nothing}` : nothing;
}

/** Rows to choose from; one that is not free, or not good to issue, says why and cannot be taken. */
export function helmetChoice(view, act, shell) {
  const all = candidates(view, shell), chosen = chosenHelmet(view, shell);
  if (!all.length) return html`<div class="caution">${status("check", say.NONE(shell))}<p>${say.NONE_DO}</p></div>`;
  const good = all.filter((each) => each.good), shown = good.filter((each, at) => at < FIRST || each === chosen);
  const others = good.filter((each) => !shown.includes(each));
  return html`<section><h2>${say.WHICH}</h2>
    ${radios(view, act, shown, chosen)}
    ${others.length ? more(say.ALL_FREE(good.length), radios(view, act, others, chosen)) : nothing}
    ${cannot(all.filter((each) => !each.good && !each.taken), "no", say.NOT_GOOD, say.ALL_NOT_GOOD)}
    ${cannot(all.filter((each) => !each.good && each.taken), "unknown", say.NOT_FREE, say.ALL_NOT_FREE)}
    ${chosen ? nothing : html`<p>${say.NONE(shell)} ${say.NONE_DO}</p>`}</section>`;
}
