// One check: how it is done, what is right, and the answers, each with what it says.
import { html, nothing } from "../../vendor/lit-html.js";
import { tape } from "../parts.js";
import * as say from "./words/check.js";
import { choice, lines, more, page, way } from "./page.js";
import { backToProposed } from "./reserve.js";
import * as proposal from "./words/proposal.js";
import { kept } from "./kept.js";
import { sentence } from "./sentences.js";
import { howTo } from "./swaps.js";
import { standingTape, lengthAct } from "./standing_tape.js";

/** The checks of a round, the first of which is asked now. */
export function screen(view, act) {
  const [check, ...rest] = view.message.checks;
  return one(view, act, check, { rest: rest.length });
}

/** The tape of this try-on: one mark a check up to acceptance. It grows with a look asked again, and begins anew with a pad. */
export function progress(view) {
  const { try_on: tryOn, answered, to_come: toCome } = view.visit.progress ?? { try_on: 1, answered: 0, to_come: 0 };
  const done = answered + answeredHere(view.pending ?? []), of = Math.max(done, answered + toCome);
  return html`${tape({ done, of, words: say.PROGRESS(done, of) })}<p class="second small">${tryOn > 1 ? say.ANEW(tryOn) : nothing} ${say.PROGRESS(done, of)}</p>`;
}

const answeredHere = (pending) => pending.reduce((count, { event }) => event.event === "answered" ? count + 1 : event.event === "undone" ? Math.max(0, count - 1) : count, 0);

/** One check asked again, and why. */
export function look(view, act) {
  return one(view, act, view.message.check, { rest: 0, look: view.message.look, why: view.message.why, changes: view.message.changes });
}

function one(view, act, check, { rest = 0, look: again = 1, why = "", changes = [] }) {
  const mine = kept(view, "check"), chosen = mine.check === check.check && mine.look === again ? mine : {};
  const choose = (patch) => act.set({ check: { check: check.check, look: again, ...patch } });
  const answer = check.answers.find((each) => each.word === chosen.word);
  return page(view, act, {
    title: check.title, tape: progress(view),
    second: html`${view.ahead ? html`<p><b>${proposal.LOOKS_AT(view.ahead.code)}</b></p>` : nothing}${why ? html`<p class="again"><b>${say.SECOND_LOOK(again)}.</b> ${sentence(why)}</p>` : nothing}${lines(check.how)}`,
    body: html`${right(check)}${expected(check)}
      ${check.length ? standingTape(check, chosen, choose) : rows(check, answer, choose)}
      ${answer && !answer.right ? advice(check, answer) : nothing}
      ${changes.length ? html`<section><h2>${say.ON_THE_SPOT_STEPS}</h2>${howTo(changes)}</section>` : nothing}
      ${rest || view.ahead ? html`<div class="ways">${rest ? way(say.REST, () => act.go(`#/visit/${view.visit.visit}/round`), say.REST_SECOND(rest + 1)) : nothing}
        ${view.ahead ? backToProposed(act) : nothing}</div>` : nothing}
      ${more(say.SOURCE, html`<p>${sentence(say.SOURCE_OF(check.source))} ${check.by_maker ? say.MAKER : nothing}</p>`)}`,
    primary: check.length ? lengthAct(view, act, check, chosen) : wordAct(act, check, answer),
  });
}

const right = (check) => html`<p class="accept">${check.by_maker ? html`<b>${say.MAKER}</b> ` : html`<b>${say.RIGHT}</b> `}${sentence(check.accept)}</p>`;
const expected = ({ expect }) => expect ? html`<p class="expect"><b>${say.EXPECT}</b> ${sentence(expect.says)} <span class="second">${sentence(expect.assumed)}</span></p>` : nothing;

function advice(check, answer) {
  return html`<div class="caution">${answer.points_to ? html`<p><b>${say.POINTS_TO}</b> ${sentence(answer.points_to)}</p>` : nothing}
    ${check.put_right ? html`<p><b>${say.ON_THE_SPOT}</b> ${sentence(check.put_right)}</p>` : nothing}</div>`;
}

function rows(check, answer, choose) {
  return html`<div class=${check.answers.length > 4 ? "answers two" : "answers"} role="radiogroup" aria-label=${say.ANSWERS}>${check.answers.map((each) => choice(
    each === answer, () => choose({ word: each.word }), html`<b>${each.word}</b><span>${sentence(each.says)}</span>`))}</div>`;
}

function wordAct(act, check, answer) {
  return {
    label: answer ? say.ANSWER(check.title, answer.word) : say.CHOOSE,
    below: answer ? sentence(answer.says) : "",
    waits: answer ? "" : say.WAITS,
    act: () => act.visit({ event: "answered", check: check.check, word: answer.word }, "", { remember: { check: null } }),
  };
}
