// How every screen of a visit is laid out: heading, what it shows, the way out for symptoms, undo, the act.
import { html, nothing } from "../../vendor/lit-html.js";
import { bottom } from "../parts.js";
import * as say from "./words/page.js";
import { sentence } from "./sentences.js";
import { UNSIGNED } from "./signing.js";

/** One screen. `primary` is as in `bottom`; while it waits for something it cannot be done, and says for what. */
export function page(view, act, { title, second = nothing, beside = nothing, tape = nothing, body, primary = null, hurt = true, undo = true }) {
  return html`<div class="fit">
    ${tape}
    <div class="heading question"><div><h1 tabindex="-1">${title}</h1>${second === nothing ? nothing : html`<div class="second">${second}</div>`}</div>${beside}</div>
    <div class="body">${body}</div>
    ${bottom({
      undo: undo && canUndo(view) ? { act: () => act.visit({ event: "undone" }, "", { remember: UNSIGNED }), label: say.UNDO } : null,
      between: hurt ? hurtControl(view, act) : nothing,
      primary,
    })}
  </div>`;
}

/** Whether a person has said anything yet, here or at the laptop. */
const canUndo = ({ visit, pending }) => Boolean(visit?.undo || pending?.some(({ event }) => event.event !== "undone"));

/** The way out for symptoms: on every screen of a visit, always in sight. */
export const hurtControl = (view, act) => html`<button type="button" class="key hurt" @click=${() => act.go(`#/visit/${view.path[1]}/hurt`)}>${say.HURT}</button>`;

/** A row that can be chosen among others; the cut corner says so, and the word for those who do not see it. */
export function choice(chosen, tap, inside, extra = "") {
  return html`<button type="button" role="radio" aria-checked=${String(chosen)} class="answer ${extra}" @click=${tap} @keydown=${arrows}>${inside}</button>`;
}

/** Arrow keys go through the rows of a group, as in every group of choices. */
function arrows(event) {
  const step = { ArrowDown: 1, ArrowRight: 1, ArrowUp: -1, ArrowLeft: -1 }[event.key];
  if (!step) return;
  event.preventDefault();
  const rows = [...event.currentTarget.closest("[role=radiogroup]").querySelectorAll("[role=radio]")];
  rows[(rows.indexOf(event.currentTarget) + step + rows.length) % rows.length].focus();
}

/** What opens on a tap, and says so by its own control. */
export const more = (words, inside) => html`<details class="more"><summary>${words}</summary><div>${inside}</div></details>`;

/** Sentences one under the other; numbered where their order counts. */
export const steps = (all) => html`<ol class="steps">${all.map((line) => html`<li>${sentence(line)}</li>`)}</ol>`;
export const lines = (all) => html`<ul class="lines">${all.map((line) => html`<li>${sentence(line)}</li>`)}</ul>`;

/** Sentences as one paragraph. */
export const paragraph = (all) => html`<p>${all.map((line) => html`${sentence(line)} `)}</p>`;

/** A way that is not the act at the bottom. */
export const way = (words, tap, second = "") => html`<button type="button" @click=${tap}><span>${words}</span>${second ? html`<span class="second">${second}</span>` : nothing}</button>`;
