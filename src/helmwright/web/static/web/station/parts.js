// Parts that every screen is made of: head, badge, tape, keys, and the bar at the bottom.
import { html, nothing } from "../vendor/lit-html.js";
import { drawn, mark, status } from "./marks.js";
import { runsElsewhere } from "./route.js";

const MODES = ["room", "night", "glare"];
const ENDED = new Set(["accepted", "no build", "stopped", "symptom"]);

/** What the laptop does not have, in words. Nothing that is only kept here is called sent. */
export function badge(view) {
  if (view.unsent) return status("kept", `${view.unsent} kept here`);
  return view.online ? status("yes", "Laptop has all") : status("kept", "No laptop; 0 kept here");
}

/** Who is being fitted, at which station, and what is not at the laptop yet. */
export function head(view, act) {
  const { player } = view;
  return html`<header class="head">
    ${player ? whose(player) : html`<p class="who"><span class="name">${view.today?.room ?? "Helmwright"}</span></p>`}
    <div class="here">
      <span>${view.device?.name ?? "This device"}${view.person ? html`, ${view.person.name}` : nothing}</span>
      ${badge(view)}
    </div>
    ${leave(view, act)}
  </header>`;
}

function whose(player) {
  const about = [player.position, ...(player.worn ?? []), player.glasses ? "glasses" : ""].filter(Boolean).join("; ");
  return html`<p class="who"><span class="number numeral">${player.number || "–"}</span>
    <span><span class="name">${player.name}</span><span class="second">${about}</span></span></p>`;
}

/** The way out that loses nothing: a visit pauses, everything else is kept as it stands. */
function leave(view, act) {
  const open = view.visit && !runsElsewhere(view) && !ENDED.has(view.visit.message?.message) && view.message?.message !== "paused";
  if (open && !view.signIn) {
    return html`<button class="quiet" @click=${() => act.visit({ event: "paused" })}>Pause</button>`;
  }
  if (!view.signIn && view.path[0] === "visit" && !view.visit && view.player) {
    return html`<button class="quiet" @click=${() => pauseUnseen(act)}>Pause</button>`;
  }
  if (view.signIn || view.path.length < 1 || view.path[0] === "who") return nothing;
  return html`<button class="quiet" @click=${() => act.go("#/who")}>Players</button>`;
}

/** While the first build is sought nothing of the visit is here yet: said once, and on to the players. */
async function pauseUnseen(act) {
  if (await act.visit({ event: "paused" })) act.go("#/who");
}

/** The heading; focus comes here when the screen changes.
 * @param below second text   @param more a key at its right, or nothing */
export function heading(words, below = "", more = nothing) {
  return html`<div class="heading"><h1 tabindex="-1">${words}</h1>${below ? html`<p class="second">${below}</p>` : nothing}${more}</div>`;
}

/** The bar at the bottom: undo at the left, what comes next solid at the right, always there.
 * @param undo {act, label} or null   @param primary {label, below, act, waits} or null
 * @param between more keys, each at least 64 px   */
export function bottom({ undo = null, primary = null, between = nothing }) {
  return html`<div class=${between === nothing ? "bottom" : "bottom full"}>
    ${undo ? html`<button class="undo" data-once @click=${undo.act}>${drawn("undo")}<span>${undo.label ?? "undo"}</span></button>` : nothing}
    ${between}
    ${primary ? primaryKey(primary) : nothing}
  </div>`;
}

function primaryKey({ label, below = nothing, act, waits = "" }) {
  const words = html`<span class="words"><span class="label">${label}</span>${
    waits || below !== nothing ? html`<span class="below">${waits ? `waits for ${waits}` : below}</span>` : nothing}</span>${drawn("next")}`;
  return waits
    ? html`<button class="primary waits" aria-disabled="true">${words}</button>`
    : html`<button class="primary solid" data-once @click=${act}>${words}</button>`;
}

/** The tape of a visit: as many marks as there are steps, pulled out as far as it got.
 * @param done how many are behind   @param of how many there are   @param words says it aloud */
export function tape({ done, of, words }) {
  const step = Math.max(1, Math.ceil(of / 60));
  const marks = Array.from({ length: Math.floor(of / step) }, (_, at) => (at + 1) * step);
  const end = marks.filter((at) => at <= done).at(-1) ?? 0;
  return html`<div class="tape" role="img" aria-label=${words}>${marks.map((at) => html`
    <span class=${cellClass(at, end, marks.length, step)}><span>${at === end ? done : at}</span></span>`)}</div>`;
}

/** Numbers stand where there is room: every tenth on a long tape, every third of a short one on a phone. */
function cellClass(at, end, count, step) {
  const far = count > 20 ? 20 : count > 12 ? 3 : 1;
  const every = count > 20 ? 10 : 1;
  const index = at / step;
  const crowded = at !== end && Math.abs(at - end) / step < (count > 20 ? 5 : 1);
  const shown = at === end || (index % every === 0 && !crowded);
  return `cell ${at <= end ? "pulled" : ""} ${at === end ? "end" : ""} ${shown ? "" : "unmarked"} ${at !== end && index % far ? "far" : ""}`;
}

/** A group of keys of which one is chosen.
 * @param keys {value, label, below}[]   @param chosen a value   @param choose is called with one */
export function choice(words, keys, chosen, choose, kind = "") {
  return html`<div class="keys ${kind}" role="group" aria-label=${words}>${keys.map((key) => html`
    <button class="key" aria-pressed=${String(key.value === chosen)} @click=${() => choose(key.value)}>
      <span class="label">${key.label}</span>${key.below ? html`<span class="below">${key.below}</span>` : nothing}</button>`)}</div>`;
}

/** Where the laptop has to think or is not heard: what is waited for, in words. */
export function waiting(view, words) {
  return html`<p class="waiting" role="status">${mark("kept")}<span>${
    view.online ? words : "The laptop is not heard. What you said is kept here; this goes on by itself when it is."}</span></p>`;
}

/** What somebody must read. @param name a mark */
export function notice(name, title, words, below = nothing) {
  return html`<div class="notice ${name}">${mark(name)}<div><p><b>${title}</b> ${words}</p>${below}</div></div>`;
}

/** Room, night, glare: one tap on any screen. */
export function modes(view) {
  return html`<div class="modes" role="group" aria-label="Light">${MODES.map((mode) => html`
    <button class="key" data-set-mode=${mode} aria-pressed=${String(view.mode === mode)}>${mode}</button>`)}</div>`;
}
