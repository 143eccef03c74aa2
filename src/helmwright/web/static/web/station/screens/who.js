// Who is it: a number, a name, or the code on a label. One field takes all three; a code reader
// that types like a keyboard fills it too.
import { html, nothing } from "../../vendor/lit-html.js";
import { drawn, status } from "../marks.js";
import { bottom, heading, notice, tape } from "../parts.js";

const DIGITS = ["1", "2", "3", "4", "5", "6", "7", "8", "9"];
const MOST = 12;
const CODE = /^[a-z]+-?\d+[a-z\d-]*$/i;
const DONE = new Set(["fitted, not signed", "issued"]);
const IN_HAND = ["in visit", "paused", "fitted, not signed"];

export function screen(view, act) {
  const said = view.local.said ?? "";
  const found = said ? matching(view.today.players, said) : inHand(view.today.players);
  const sure = said ? theOne(found, said) : null;
  const done = view.today.players.filter((player) => DONE.has(player.standing)).length;
  return html`
    ${tape({ done, of: view.today.players.length, words: `${done} of ${view.today.players.length} players are fitted` })}
    ${heading("Who is it?", view.today.players.length
    ? html`<b>${done} of ${view.today.players.length}</b> players are fitted.`
    : "No player is on the roster yet. The manager puts them on it at the desk.")}
    ${view.local.told ? notice("check", "Look here.", view.local.told) : nothing}
    <div class="who-is-it">
      ${pad(said, act)}
      <section class="found" aria-label=${said ? "Players found" : "In hand here"}>
        <p class="second" role="status">${countOf(said, found)}</p>
        ${found.slice(0, MOST).map((player) => row(player, act))}
      </section>
    </div>
    ${bottom({
      undo: said ? { label: "clear", act: () => act.set({ said: null, told: null }) } : null,
      primary: CODE.test(said)
        ? { label: `Find ${said.toUpperCase()}`, below: "the code on a label", act: () => byCode(said, act) }
        : {
          label: sure ? html`<span class="numeral">${sure.number}</span> ${sure.name}` : "Player",
          below: sure ? sure.standing : nothing,
          waits: sure ? "" : said && found.length > 1 ? "one of these, or more of the name" : "a number, a name or a code",
          act: () => choose(sure, act),
        },
    })}`;
}

function pad(said, act) {
  const type = (text) => act.set({ said: text || null, told: null });
  return html`<div class="asked">
    <label for="said">Number, name, or code on the label</label>
    <input id="said" type="text" autocomplete="off" autocapitalize="off" spellcheck="false" .value=${said}
      @input=${(event) => type(event.target.value)}
      @keydown=${(event) => { if (event.key === "Enter") enter(event, act); }}>
    <div class="keys pad" role="group" aria-label="Number">${DIGITS.map((digit) => html`
      <button class="key big numeral" @click=${() => type(said + digit)}>${digit}</button>`)}
      <button class="key big numeral zero" @click=${() => type(`${said}0`)}>0</button>
      <button class="key big" aria-label="Erase the last letter or digit" @click=${() => type(said.slice(0, -1))}>${drawn("erase")}</button></div>
  </div>`;
}

function enter(event, act) {
  event.preventDefault();
  document.querySelector(".bottom .primary:not([aria-disabled])")?.click();
  act.set({});
}

function row(player, act) {
  return html`<button class="key player" @click=${() => choose(player, act)}>
    <span class="number numeral">${player.number || "–"}</span>
    <span class="words"><span class="label">${player.name}</span><span class="below"><span>${player.position}</span>${status(player.mark, player.standing)}</span></span></button>`;
}

async function choose(player, act) {
  await act.set({ said: null, told: null });
  act.go(player.visit ? `#/visit/${player.visit}` : `#/player/${player.id}`);
}

async function byCode(code, act) {
  try {
    const { helmet, player } = await act.find(code.toUpperCase());
    if (player) { await act.set({ said: null, told: null }); act.go(`#/player/${player}`); return; }
    await act.set({ said: null, told: `${helmet.code} is with nobody. Choose the player; then it can be taken for the visit.` });
  } catch (error) {
    await act.set({ told: error.status === 404 ? `No helmet has the code ${code.toUpperCase()}.` : `The code could not be looked up: ${error.message}.` });
  }
}

function countOf(said, found) {
  if (!said) return found.length ? "In hand" : "Nobody is in the middle of a visit.";
  if (found.length > MOST) return `${MOST} of ${found.length} shown: go on typing.`;
  return found.length ? `${found.length} found` : "Nobody today has that number or name.";
}

function inHand(players) {
  return players.filter((player) => IN_HAND.includes(player.standing) || player.visit)
    .sort((one, other) => IN_HAND.indexOf(one.standing) - IN_HAND.indexOf(other.standing));
}

/** A number is never a key: two players may have the same one, and both are shown. */
function matching(players, said) {
  const words = said.trim().toLowerCase();
  const first = (player) => (player.number.toLowerCase() === words ? 0 : 1);
  return players
    .filter((player) => player.number.toLowerCase().startsWith(words) || player.name.toLowerCase().includes(words))
    .sort((one, other) => first(one) - first(other));
}

function theOne(found, said) {
  const exact = found.filter((player) => player.number === said.trim());
  if (exact.length === 1) return exact[0];
  return found.length === 1 ? found[0] : null;
}

/** What is typed anywhere on the page goes into the field. */
export function key(event, view, act) {
  const said = view.local.said ?? "";
  if (event.ctrlKey || event.metaKey || event.altKey) return;
  if (event.key === "Enter" && event.target.closest("button")) return;
  if (event.key === "Enter") enter(event, act);
  else if (event.key === "Backspace") act.set({ said: said.slice(0, -1) || null, told: null });
  else if (event.key.length === 1 && event.key !== " ") act.set({ said: said + event.key, told: null });
}
