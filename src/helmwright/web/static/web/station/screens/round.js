// The rest of a round on one page: all good, except what is said otherwise.
import { html } from "../../vendor/lit-html.js";
import * as say from "./words/round.js";
import { choice, page } from "./page.js";
import { kept, keep } from "./kept.js";
import { inches } from "../lengths.js";
import { sentence } from "./sentences.js";
import { usual, wordOf } from "./standing_tape.js";
import { status } from "../marks.js";

const good = (check) => check.answers.find((answer) => answer.right).word;

export function screen(view, act) {
  const { message } = view, checks = (message.message === "proposal" ? message.next : message).checks ?? [];
  const said = kept(view, "round").said ?? {};
  const bad = checks.filter((check) => !isGood(check, said[check.check])).length;
  return page(view, act, {
    title: say.TITLE, second: say.NOTE,
    body: html`<ul class="round">${checks.map((check) => html`<li>${row(view, act, check, said)}</li>`)}</ul>
      <div class="ways"><button type="button" @click=${() => act.go(`#/visit/${view.visit.visit}`)}>${say.ONE}</button></div>`,
    primary: { label: bad ? say.SOME(checks.length - bad, bad) : say.ALL(checks.length), below: say.SECOND, act: () => sayAll(view, act, checks, said) },
  });
}

const isGood = (check, answer) => !answer || answer.word === good(check);

function row(view, act, check, said) {
  const answer = said[check.check], word = answer?.word ?? good(check), isOpen = kept(view, "round").open === check.check;
  const read = answer?.value_mm === undefined ? word : html`${inches(answer.value_mm)} in, ${word}`;
  return html`<button type="button" class="answer" aria-expanded=${String(isOpen)} @click=${() => keep(view, act, "round", { open: isOpen ? "" : check.check })}>
      <b>${check.title}</b>${status(isGood(check, answer) ? "yes" : "check", read)}</button>
    ${isOpen ? answers(view, act, check, said) : ""}`;
}

function answers(view, act, check, said) {
  const put = (answer) => keep(view, act, "round", { said: { ...said, [check.check]: answer }, open: "" });
  const now = said[check.check] ?? { word: good(check) };
  const values = check.length ? usual(check) : [];
  return html`<div class="inner"><p>${sentence(check.accept)}</p>
    <div class="answers two" role="radiogroup" aria-label=${check.title}>
      ${check.answers.map((each) => choice(now.word === each.word && now.value_mm === undefined, () => put({ word: each.word }), html`<b>${each.word}</b><span>${sentence(each.says)}</span>`))}
      ${values.map((mm) => choice(now.value_mm === mm, () => put({ word: wordOf(check, mm), value_mm: mm }), html`<span class="reading">${inches(mm)}</span><b>${wordOf(check, mm)}</b>`))}</div></div>`;
}

/** One entry a check, in the order in which they are asked. */
async function sayAll(view, act, checks, said) {
  const last = checks.length - 1;
  for (const [n, check] of checks.entries()) {
    const answer = said[check.check] ?? { word: good(check) };
    await act.visit({ event: "answered", check: check.check, ...answer }, "", n === last ? { remember: { round: null } } : {});
  }
  act.go(`#/visit/${view.visit.visit}`);
}
