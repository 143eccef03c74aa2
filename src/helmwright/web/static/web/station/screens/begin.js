// Which helmet model, and out of which store: then the visit begins.
import { html, nothing } from "../../vendor/lit-html.js";
import { inOrder, readingsOf, titleOf } from "../measures.js";
import { bottom, choice, heading, notice, waiting } from "../parts.js";
import { status } from "../marks.js";
import * as cleared from "./cleared.js";
import * as consent from "./consent.js";
import { CLEARED_NOTE } from "./words/before.js";

export function screen(view, act) {
  const { player, today, local } = view;
  if (!player) return html`${heading("This player is not on today's roster")}${waiting(view, "Asking the laptop.")}
    ${bottom({ primary: { label: "Players", act: () => act.go("#/who") } })}`;
  if (player.visit) return underWay(view, act);
  if (cleared.isAsked(view)) return cleared.screen(view, act);
  if (consent.isAsked(view)) return consent.screen(view, act);
  const sheet = local.sheet ?? (today.sheets.length === 1 ? today.sheets[0].digest : null);
  const store = local.store ?? today.device?.store ?? (today.stores.length === 1 ? today.stores[0].id : null);
  const missing = inOrder(today.measures).filter((measure) => !readingsOf(player, measure.key).length);
  return html`${heading("Which helmet model?", "The program then proposes shell and pads out of what the store holds.")}
    ${player.symptom ? html`<p>${status("check", CLEARED_NOTE)}</p>` : nothing}
    ${missing.length ? notReadYet(missing) : nothing}
    ${choice("Helmet model", today.sheets.map((each) => ({ value: each.digest, label: each.model, below: each.invented ? "invented, for trying out" : "" })), sheet, (digest) => act.set({ sheet: digest }), "answers two")}
    <h2 class="group">Out of which store</h2>
    ${choice("Store", today.stores.map((each) => ({ value: each.id, label: each.name })), store, (id) => act.set({ store: id }), "answers three")}
    <h2 class="group">A certain helmet, if it must be that one</h2>
    ${certain(view, act)}
    ${bottom({
      undo: { label: "back", act: () => act.go(`#/player/${player.id}`) },
      primary: {
        label: "Begin the visit", below: local.helmet ? `with ${local.helmet.code}` : nothing,
        waits: !sheet ? "the helmet model" : !store ? "the store" : local.code && !local.helmet ? "a helmet of that code, or none" : "",
        act: () => begin(view, act, sheet, store),
      },
    })}`;
}

function notReadYet(missing) {
  const all = missing.map((measure) => titleOf(measure).toLowerCase()).join(", ");
  return notice("check", "Not read:", `${all}. The program says what each would be worth; the visit can begin without.`);
}

function certain({ local, player }, act) {
  const find = (code) => look(code, player, act);
  return html`<div class="certain"><input id="code" type="text" autocomplete="off" aria-label="Code on the helmet's label" .value=${local.code ?? ""}
      @input=${(event) => act.set({ code: event.target.value || null, helmet: null, told: null, not: null })}
      @keydown=${(event) => { if (event.key === "Enter") find(event.target.value); }}>
    <button class="key" @click=${() => find(local.code ?? "")}>Find it</button></div>
    ${local.helmet ? html`<p role="status"><b>${local.helmet.code}</b>, shell ${local.helmet.shell}</p>` : nothing}
    ${local.told ? html`<div role="status">${notice(local.not ? "no" : "check", local.not ? `Not ${local.not}.` : "Not found.", local.told,
      html`<button class="key" @click=${() => act.set({ code: null, helmet: null, told: null, not: null })}>No certain helmet</button>`)}</div>` : nothing}`;
}

/** A helmet that cannot be issued is not taken into the visit, and the laptop's reason says what to do. */
async function look(code, player, act) {
  const said = code.trim().toUpperCase();
  if (!said) return;
  try {
    const { helmet } = await act.find(said, player.id);
    await act.set(helmet.good === false ? { helmet: null, told: helmet.why, not: helmet.code }
      : { helmet: { id: helmet.id, code: helmet.code, shell: helmet.shell }, told: null, not: null });
  } catch (error) {
    await act.set({ helmet: null, not: null, told: error.status === 404 ? `No helmet has the code ${said}.` : `The code could not be looked up: ${error.message}.` });
  }
  document.querySelector(".certain + [role=status]")?.scrollIntoView({ block: "nearest" });
}

async function begin(view, act, sheet, store) {
  const visit = act.id();
  const payload = { visit, player: view.player.id, store, sheet, helmet: view.local.helmet?.id ?? null, ...(view.player.symptom ? { cleared: true } : {}) };
  const remember = { cleared: null, sheet: null, store: null, helmet: null, code: null, told: null, not: null, skipped: null };
  if (await act.say("visit begun", payload, { remember })) act.go(`#/visit/${visit}`);
}

function underWay({ player }, act) {
  return html`${heading("A visit is open", "This player is in a visit, here or at another station.")}
    ${bottom({ undo: { label: "back", act: () => act.go(`#/player/${player.id}`) },
      primary: { label: "Go on with the visit", act: () => act.go(`#/visit/${player.visit}`) } })}`;
}
