// The proposed build: what it is, how likely it is right, why, what is here for it, which helmet takes it.
// Later in the visit the same message proposes a change of what is on the head.
import { html, nothing } from "../../vendor/lit-html.js";
import * as say from "./words/proposal.js";
import * as build from "./words/build.js";
import { zoneList } from "./build.js";
import { chance, ofHundred } from "./chance.js";
import { screen as change } from "./change.js";
import { drawing } from "./drawing.js";
import { chosenHelmet, helmetChoice } from "./helmet_choice.js";
import { sentence } from "./sentences.js";
import { model } from "./model.js";
import { titleOf } from "../measures.js";
import { more, page, way } from "./page.js";
import { isTogether, lostNotice, spokenFor, together } from "./reserve.js";
import { swapList } from "./swaps.js";
import { screen as next } from "./visit.js";

export function screen(view, act) {
  const { message, visit } = view;
  if (isTogether(view) && message.next) return next({ ...view, message: message.next, changes: message.changes, ahead: spokenFor(view) }, act);
  return (visit.try_ons ?? []).length ? change(view, act) : first(view, act);
}

function first(view, act) {
  const { message, visit } = view, sheet = model(view), helmet = chosenHelmet(view, message.build.shell);
  return page(view, act, {
    title: build.model(sheet.model, message.build.shell),
    second: html`${sheet.invented ? `${build.INVENTED}. ` : nothing}${helmet ? say.helmet(helmet.code) : nothing}`,
    beside: chance(message.found_right),
    body: html`${lostNotice(view)}${notOwn(view)}<p class="second narrow">${say.ADVICE}</p>
      ${pictures(visit.drawing?.after ?? visit.drawing?.now)}
      ${zoneList(message.build, visit.zones)}
      <p class="why"><b>${say.WHY}</b> ${sentence(message.why)} ${say.MINUTES(message.minutes)}</p>
      ${ways(view, act)}
      ${helmetChoice(view, act, message.build.shell)}
      ${helmet?.swaps?.length ? more(build.changes(helmet.swaps.length), swapList(helmet.swaps)) : nothing}`,
    primary: {
      label: say.TOGETHER, below: say.ADVICE, act: () => together(view, act, helmet), waits: helmet ? "" : build.WAITS,
    },
  });
}

const isUnlikeOwn = ({ visit, message }) => Boolean(visit.helmet) && visit.helmet.shell !== message.build.shell;

/** A certain helmet was to be fitted, and another shell is proposed. */
function notOwn(view) {
  const own = view.visit.helmet, { shell } = view.message.build;
  return isUnlikeOwn(view) ? html`<div class="caution"><p><b>${say.NOT_OWN(own.code, own.shell, shell)}</b> ${say.NOT_OWN_DO}</p></div>` : nothing;
}

/** Both sections, as large as the page allows. */
const pictures = (drawn) => drawn ? html`<div class="pictures">${drawing(drawn, "side", say.SIDE, "side")}${drawing(drawn, "level", say.LEVEL, "level")}</div><p class="second small">${say.STROKES}</p>` : nothing;

function ways(view, act) {
  const { other_builds: others = [], measure_next: measures = [], visit } = view.visit, to = `#/visit/${visit}`;
  return html`<div class="ways">${measures.slice(0, 1).map((each) => way(say.MEASURE(titleOf({ key: each.measure, name: each.name })), () => act.go(`${to}/measuring/${each.measure}`), say.MEASURE_SECOND(ofHundred(each.gain))))}
    ${others.length || isUnlikeOwn(view) ? way(say.OTHER, () => act.go(`${to}/other`), others.length ? say.OTHER_SECOND(ofHundred(others[0].found_right)) : "") : nothing}
    ${way(say.STOP, () => act.go(`${to}/stop`))}</div>`;
}
