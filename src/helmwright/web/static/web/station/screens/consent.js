// Somebody who answers for a minor agrees before the visit; who it was is kept, and little else.
import { html, nothing } from "../../vendor/lit-html.js";
import { bottom, choice, heading, waiting } from "../parts.js";
import * as say from "./words/before.js";

const FORGET = { agreed: null, guardian: null, relation: null };

/** Whether that has to be asked before anything else of a fitting. */
export const isAsked = ({ player }) => Boolean(player.minor && !player.consent);

export function screen(view, act) {
  const { player, local } = view, name = (local.guardian ?? "").trim();
  const back = () => act.go(`#/player/${player.id}`);
  if (!player) return html`${heading(say.CONSENT)}${waiting(view, "Asking the laptop.")}`;
  return html`${heading(say.CONSENT, say.CONSENT_WHY)}
    ${choice(say.CONSENT, [
      { value: "here", label: say.HERE, below: say.HERE_SECOND },
      { value: "paper", label: say.PAPER, below: say.PAPER_SECOND },
      { value: "nobody", label: say.NOBODY, below: say.NOBODY_SECOND },
    ], local.agreed, (agreed) => act.set({ agreed }), "answers one")}
    ${local.agreed === "here" ? html`<div class="who-agreed">
      ${field("guardian", say.NAME, 120, local, act)}${field("relation", say.RELATION, 40, local, act)}</div>` : nothing}
    <p class="second">${say.CONSENT_LITTLE}</p>
    ${bottom({
      undo: { label: "back", act: back },
      primary: local.agreed === "nobody" ? { label: say.PLAYERS, act: () => act.go("#/who") } : {
        label: say.KEEP, waits: !local.agreed ? say.WAITS_WHO : local.agreed === "here" && !name ? say.WAITS_NAME : "",
        act: () => keep(view, act, name),
      },
    })}`;
}

const field = (id, words, most, local, act) => html`<label class="field"><span>${words}</span>
  <input id=${id} type="text" maxlength=${most} autocomplete="off" .value=${local[id] ?? ""}
    @input=${(event) => act.set({ [id]: event.target.value || null })}></label>`;

async function keep({ player, today, local, path }, act, name) {
  const isHere = local.agreed === "here", guardian = isHere ? act.id() : null;
  if (isHere && !(await act.say("guardian added", { guardian, player: player.id, name, relation: (local.relation ?? "").trim() }))) return;
  const consent = { consent: act.id(), player: player.id, guardian, about: "fitting", text_version: isHere ? today.consent_text : "", on_paper: !isHere };
  if (await act.say("consent given", consent, { remember: FORGET }) && path[2] === "consent") act.go(`#/player/${player.id}`);
}
