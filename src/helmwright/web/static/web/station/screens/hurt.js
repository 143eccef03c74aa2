// A symptom ends the visit; it asks for a yes, so that nobody ends it with a sleeve.
import { html } from "../../vendor/lit-html.js";
import * as say from "./words/hurt.js";
import { lines, page } from "./page.js";
import { kept, keep } from "./kept.js";

const UNSAID = "a symptom, not said which";

export function screen(view, act) {
  const words = kept(view, "hurt").words ?? "", back = `#/visit/${view.path[1]}`;
  return page(view, act, {
    title: say.TITLE, second: say.NOTE, hurt: false, undo: false,
    body: html`${lines(view.visit?.told?.symptoms ?? say.SIGNS)}
      <label class="field"><span>${say.WORDS}</span><input type="text" maxlength="200" autocomplete="off" .value=${words} @change=${(event) => keep(view, act, "hurt", { words: event.target.value })}></label>
      <p class="second">${say.SPOT}</p>
      <div class="ways"><button type="button" @click=${() => act.go(back)}>${say.NO}</button></div>`,
    primary: { label: say.YES, below: say.YES_SECOND, act: async () => {
      await act.visit({ event: "symptom reported" }, typed() || words || UNSAID, { remember: { hurt: null } });
      act.go(back);
    } },
  });
}

/** What stands in the field, whether or not it was left. */
const typed = () => document.querySelector(".fit .field input")?.value.trim() ?? "";
