// The next change: which finding it answers, what goes out and in, what is expected of it, and the ways round it.
import { html, nothing } from "../../vendor/lit-html.js";
import * as say from "./words/change.js";
import * as build from "./words/build.js";
import { chanceTape } from "./chance.js";
import { NEXT as NEXT_CHANCE } from "./words/chance.js";
import { drawing } from "./drawing.js";
import { chosenHelmet, helmetChoice } from "./helmet_choice.js";
import { page, more } from "./page.js";
import { inches } from "../lengths.js";
import { sentence, size } from "./sentences.js";
import { status } from "../marks.js";
import { swapList, howTo, partNumbers, ARROW } from "./swaps.js";
import { swapsOf } from "./put_on.js";
import { together, isTogether, lostNotice } from "./reserve.js";

const FROM_ABOVE = new Set(["left", "right", "jaw left", "jaw right"]);

/** What was not right at the try-on before, by check title. */
export function findings(view) {
  const last = (view.visit.try_ons ?? []).at(-1), titles = new Map((view.message.checks ?? []).map((check) => [check.check, check]));
  const words = new Map((last?.answers ?? []).map((answer) => [answer.check, answer]));
  return [...words.values()].flatMap((answer) => {
    const check = titles.get(answer.check);
    const said = check?.answers.find((each) => each.word === answer.word);
    return check && said && !said.right ? [{ title: check.title, word: said.word, value: answer.value_mm ?? null }] : [];
  });
}

export function screen(view, act) {
  const { message, visit } = view, swaps = swapsOf(view), shell = message.build.shell;
  const otherShell = shell !== message.before.shell && !isTogether(view);
  return page(view, act, {
    title: otherShell ? say.SHELL(shell) : title(swaps),
    second: html`${findings(view).map((found) => html`<p class="found">${status("check", html`${say.FOUND(found.title, found.word)}${found.value === null ? nothing : html` ${inches(found.value)} in`}`)}</p>`)}`,
    body: html`${lostNotice(view)}
      ${swaps.length === 1 ? one(swaps[0]) : swapList(swaps, partNumbers(message.changes))}
      ${pictures(visit.drawing, swaps)}
      <p class="why"><b>${say.WHY}</b> ${sentence(message.why)}</p>
      ${chanceTape(message.found_right, NEXT_CHANCE)}
      ${lookAgain(message)}
      ${howTo(message.changes)}
      ${otherShell ? helmetChoice(view, act, shell) : ways(view, act, swaps)}`,
    primary: otherShell ? takeHelmet(view, act, shell) : done(view, act, swaps),
  });
}

function title(swaps) {
  if (!swaps.length) return say.UNCHANGED;
  return swaps.length === 1 ? build.pad(swaps[0].zone) : say.SEVERAL(swaps.length);
}

function one(swap) {
  return html`<p class="one-change"><s>${size(swap.out)}</s>${ARROW}<span class="into">${size(swap.into)}${swap.into === build.AIR ? nothing : " in"}</span>
    ${swap.here === null || swap.here === undefined ? nothing : html`<span class="second">${swap.here > 0 ? build.here(swap.here) : status("check", build.here(0))}</span>`}</p>`;
}

/** Now and after, side by side: the section in which the change is seen. */
function pictures(drawn, swaps) {
  if (!drawn?.now && !drawn?.after) return nothing;
  const only = swaps.length && swaps.every(({ zone }) => FROM_ABOVE.has(zone)) ? "level" : "side";
  return html`<div class="pictures">${drawing(drawn.now, "now", say.NOW, only)}${drawing(drawn.after, "after", say.AFTER, only)}</div>`;
}

function lookAgain(message) {
  const titles = new Map((message.checks ?? []).map((check) => [check.check, check.title]));
  const again = [...new Set(message.changes.flatMap((each) => each.again))].map((key) => titles.get(key)).filter(Boolean);
  if (!again.length) return nothing;
  const first = html`<b>${say.AGAIN}</b> ${again.slice(0, 4).join(", ")}`;
  return again.length > 4 ? more(html`${first} ${say.AGAIN_MORE(again.length - 4)}`, html`<p>${again.join(", ")}</p>`) : html`<p>${first}</p>`;
}

function ways(view, act, swaps) {
  const to = (reason) => () => act.go(`#/visit/${view.visit.visit}/${reason}`);
  return html`<div class="ways"><button type="button" @click=${to("other")}>${say.ANOTHER}</button>
    <button type="button" @click=${to("leave")}>${say.LEAVE}</button>
    ${swaps.length ? html`<button type="button" @click=${to("no-part")}>${say.NO_PART}</button>` : nothing}</div>`;
}

const done = (view, act, swaps) => ({
  label: swaps.length ? say.DONE : say.UNCHANGED,
  below: swaps.length ? say.DONE_SECOND(view.visit.store?.name ?? "") : say.UNCHANGED_SECOND,
  act: () => act.visit({ event: "put on", build: view.message.build }),
});

function takeHelmet(view, act, shell) {
  const helmet = chosenHelmet(view, shell);
  return { label: say.OTHER_HELMET, below: say.OTHER_HELMET_SECOND, act: () => together(view, act, helmet), waits: helmet ? "" : build.WAITS };
}
