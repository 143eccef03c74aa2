// Where a visit stands still or is over: paused, nothing fits, stopped, a symptom.
import { html, nothing } from "../../vendor/lit-html.js";
import * as say from "./words/ends.js";
import { ofHundred } from "./chance.js";
import { lines, page, way } from "./page.js";
import { sentence } from "./sentences.js";
import { sizes } from "./build.js";
import { isOfAnother } from "../route.js";
import { status } from "../marks.js";

const nextPlayer = (act) => ({ label: say.NEXT_PLAYER, act: () => act.go("#/who") });
const cautions = (all) => all?.length ? html`<div class="caution">${lines(all)}</div>` : nothing;

export function paused(view, act) {
  const { station } = view.visit, another = isOfAnother(view);
  return page(view, act, {
    title: say.PAUSED, second: say.PAUSED_NOTE, undo: false,
    body: html`${another ? html`<p>${say.TAKE(station.name)}</p>` : nothing}<div class="ways"><button type="button" @click=${() => act.go("#/who")}>${say.NEXT_PLAYER}</button></div>`,
    primary: { label: say.GO_ON, below: say.GO_ON_SECOND, act: () => goOn(view, act, another) },
  });
}

/** It runs at another station: nothing is said of it here before somebody takes it over. */
export function elsewhere(view, act) {
  const { visit, player, station, fitter } = view.visit;
  return page(view, act, {
    title: say.ELSEWHERE(station.name), second: say.ELSEWHERE_NOTE(fitter?.name ?? ""), undo: false,
    body: html`<div class="ways"><button type="button" @click=${() => act.go("#/who")}>${say.NEXT_PLAYER}</button></div>`,
    primary: { label: say.ELSEWHERE_TAKE, below: say.ELSEWHERE_TAKE_SECOND, act: () => act.say("visit taken over", { visit, player: player?.id ?? player }) },
  });
}

async function goOn(view, act, another) {
  const { visit, player } = view.visit;
  if (another) await act.say("visit taken over", { visit, player: player?.id ?? player });
  await act.visit({ event: "resumed" });
}

export function noBuild(view, act) {
  const { message, visit } = view;
  return page(view, act, {
    title: say.NO_BUILD,
    body: html`<p class="why"><b>${say.WHY}</b> ${sentence(message.why)}</p>
      ${message.would.length ? html`<h2>${say.WOULD}</h2>${message.would.map(would)}<p>${say.ASK}</p>` : html`<p>${say.NO_WOULD}</p>`}
      <div class="ways"><button type="button" @click=${() => act.go(`#/player/${visit.player?.id ?? visit.player}/begin`)}>${say.OTHER_MODEL}</button></div>
      ${cautions(message.cautions)}`,
    primary: nextPlayer(act),
  });
}

const would = (each) => html`<section class="would"><p>${status("check", say.WOULD_CHANCE(ofHundred(each.fits), each.build.shell))}</p>
  <p>${sentence(say.LACKING(each.lacking.join(", ")))}</p>${sizes(each.build)}</section>`;

export function stopped(view, act) {
  const { message } = view;
  return page(view, act, {
    title: say.STOPPED, second: say.STOPPED_NOTE,
    body: html`${message.reason ? html`<p>${say.REASON(message.reason)}</p>` : nothing}${cautions(message.cautions)}`,
    primary: nextPlayer(act),
  });
}

/** What was said cannot be that of a visit: the last of it is taken back, or the visit stops. */
export function stuck(view, act) {
  const { message, visit } = view;
  return page(view, act, {
    title: say.STUCK,
    body: html`<p>${sentence(message.what)}</p><p>${sentence(message.right)}</p>
      <div class="ways">${way(say.STOP_IT, () => act.go(`#/visit/${visit.visit}/stop`))}</div>`,
    primary: { label: say.TAKE_BACK, below: visit.undo, act: () => act.visit({ event: "undone" }) },
  });
}

/** The words stand here too: they are needed before the laptop is heard. */
export function symptom(view, act) {
  const { message } = view;
  return page(view, act, {
    title: say.SYMPTOM, hurt: false,
    body: html`<p class="do">${status("no", message.do || `${say.SYMPTOM}. ${say.SYMPTOM_DO}`)}</p>
      ${message.words ? html`<p>${say.SAID(message.words)}</p>` : nothing}${cautions(message.cautions?.length ? message.cautions : say.SYMPTOM_CAUTIONS)}`,
    primary: nextPlayer(act),
  });
}
