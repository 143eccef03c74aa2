// Why something is done otherwise: one of the usual reasons, or a few words.
import { html } from "../../vendor/lit-html.js";
import * as say from "./words/reason.js";
import { choice } from "./page.js";
import { keep, kept } from "./kept.js";

/** The reason that stands on a screen; empty where none does. */
export const reasonOf = (view, screen) => (kept(view, screen).words ?? "").trim() || (kept(view, screen).reason ?? "");

export function reasons(view, act, screen, title, all) {
  const mine = kept(view, screen);
  return html`<section><h2>${title}</h2><div class="answers" role="radiogroup" aria-label=${title}>${all.map((reason) => choice(!mine.words && mine.reason === reason,
    () => keep(view, act, screen, { reason, words: "" }), html`<b>${reason}</b>`, "short"))}</div>
    <label class="field"><span>${say.OWN_WORDS}</span><input type="text" maxlength="200" autocomplete="off" .value=${mine.words ?? ""} @input=${(event) => keep(view, act, screen, { words: event.target.value })}></label>
    <p class="second">${say.NOTE}</p></section>`;
}
