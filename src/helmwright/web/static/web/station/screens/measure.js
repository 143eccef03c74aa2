// A measure is worth taking before a build is proposed; it may be left out.
import { html } from "../../vendor/lit-html.js";
import { titleOf } from "../measures.js";
import * as say from "./words/measure.js";
import { page, way } from "./page.js";
import { sentence } from "./sentences.js";

export function screen(view, act) {
  const { message, visit } = view;
  return page(view, act, {
    title: say.TITLE(titleOf({ key: message.measure, name: message.name })), second: say.NOTE,
    body: html`<p class="why"><b>${say.WHY}</b> ${sentence(message.why)} ${say.MINUTES(message.minutes)}</p>
      <h2>${say.HOW}</h2><p>${sentence(message.how)}</p>
      <div class="ways">${way(say.SKIP, () => act.visit({ event: "measure skipped", measure: message.measure }), say.SKIP_SECOND)}</div>`,
    primary: { label: say.NOW, below: say.NOW_SECOND, act: () => act.go(`#/visit/${visit.visit}/measuring`) },
  });
}
