// After a visit that ended for a symptom the next one begins only where medical staff said yes.
import { html } from "../../vendor/lit-html.js";
import { status } from "../marks.js";
import { bottom, choice, heading } from "../parts.js";
import * as say from "./words/before.js";

/** Whether that has to be asked before a visit begins. */
export const isAsked = ({ player, local }) => Boolean(player.symptom) && local.cleared !== "told";

export function screen(view, act) {
  const { player, local } = view, no = local.cleared === "no";
  return html`${heading(say.SYMPTOM, say.SYMPTOM_WHY)}
    <p>${status("no", say.SYMPTOM_WHO)}</p>
    ${choice(say.SYMPTOM, [
      { value: "yes", label: say.CLEARED, below: say.CLEARED_SECOND },
      { value: "no", label: say.NOT_CLEARED, below: say.NOT_CLEARED_SECOND },
    ], local.cleared, (cleared) => act.set({ cleared }), "answers two")}
    <p class="second">${say.SYMPTOM_KEPT}</p>
    ${bottom({
      undo: { label: "back", act: () => act.go(`#/player/${player.id}`) },
      primary: no ? { label: say.PLAYERS, act: () => act.go("#/who") }
        : { label: say.GO_ON, waits: local.cleared === "yes" ? "" : say.WAITS_CLEARED, act: () => act.set({ cleared: "told" }) },
    })}`;
}
