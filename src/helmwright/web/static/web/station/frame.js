// What stands around every screen: head, what must be read, and the foot.
import { html, nothing } from "../vendor/lit-html.js";
import { lost } from "./screens/reserve.js";
import { head, modes, notice } from "./parts.js";

const KINDS = {
  "reading taken": "a reading", "reading withdrawn": "a reading taken back", "player wears": "what is worn",
  "guardian added": "who answers for the player", "consent given": "that somebody agreed",
  "visit begun": "the start of a visit", "visit said": "an answer in a visit", "visit taken over": "taking a visit over",
  "helmet reserved": "a helmet spoken for", "part reserved": "a part spoken for", acknowledged: "two signatures",
  "helmet issued": "an issue", "helmet returned": "a return", "reservations released": "parts given free",
};

const STUCK = "Tell the manager. It is kept here with what follows on it, and sent again by itself; everything else goes on.";

const OF_VISITS = "What stands against it is for those who fit. Ask the manager or a fitter.";

export function frame(view, act, inner) {
  return html`${head(view, act)}
    ${view.fault ? notice("check", "Look here.", view.fault) : nothing}
    ${view.setAside.filter((each) => !isToldBelow(view, each)).map((each) => told(each, act, view))}
    ${view.stuck?.length ? notice("check", `The laptop could not keep ${KINDS[view.stuck[0].kind] ?? view.stuck[0].kind}.`, STUCK) : nothing}
    <main id="main">${inner}</main>
    ${foot(view, act)}`;
}

/** A reservation that was lost stands on the proposal itself, with what to do. */
function isToldBelow(view, fate) {
  return view.message?.message === "proposal" && !view.path[2] && !view.signIn && lost(view).includes(fate);
}

/** How a visit ended is for those who fit, whoever's tablet it was kept on. */
const isHidden = ({ entry }, { person }) => entry.kind.startsWith("visit ") && person?.role === "student";

function told(fate, act, view) {
  const what = KINDS[fate.entry.kind] ?? fate.entry.kind;
  const words = fate.outcome === "refused"
    ? `${sentence(fate.what)}${fate.where ? ` (${fate.where})` : ""} ${fate.right ? `Right would be: ${fate.right}.` : ""}`
    : sentence(isHidden(fate, view) ? OF_VISITS : fate.note);
  const title = fate.outcome === "refused" ? `The laptop did not take ${what}.` : `The laptop kept ${what}, without effect.`;
  return notice("check", title, words, html`<button class="key" @click=${() => act.seen(fate.id)}>I have seen it</button>`);
}

function sentence(words) {
  return words ? `${words[0].toUpperCase()}${words.slice(1).replace(/[.]?$/, ".")}` : "";
}

function foot(view, act) {
  return html`<footer>
    ${view.release.alone ? html`<p>Leave this page open: over this address the browser cannot open it again without the laptop.</p>` : nothing}
    ${isSecureContext ? nothing : notice("check", "Not encrypted.", "Others on this network can read what goes to and from this page. Use it on a network that is yours alone.")}
    ${view.held ? html`<p>${view.held} kept here go when the one who said them signs in.</p>` : nothing}
    ${view.release.start && view.path[0] !== "visit"
      ? html`<p>A newer page is here. <button class="key" @click=${view.release.start}>Start it</button></p>` : nothing}
    <div class="row">${modes(view)}${view.signIn || view.path[0] === "person" ? nothing : html`<button class="key" @click=${() => act.go("#/person")}>Other person</button>`}</div>
    <p>The program proposes; a trained person checks on the head, and the maker's instructions win. No number here is a safety score.</p>
  </footer>`;
}
