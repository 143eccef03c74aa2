// Who acts from now on. A PIN is taken only on a device that the room knows; it is not kept here.
import { html, nothing } from "../../vendor/lit-html.js";
import { drawn } from "../marks.js";
import { bottom, heading, notice } from "../parts.js";

const SHORTEST = 4;
const LONGEST = 8;
const DIGITS = ["1", "2", "3", "4", "5", "6", "7", "8", "9", "0"];
// Never written to the device: it goes with the page.
let pin = "";

export function screen(view, act) {
  const people = peopleOf(view);
  if (!people.length || (view.today && !view.device && !view.hands)) return byPassword(view, act);
  const person = people.find((each) => each.id === view.local.who);
  return person ? byPin(view, act, person) : whoIsIt(view, act, people);
}

function peopleOf(view) {
  return view.hands ?? (view.today?.people ?? []).filter((person) => person.has_pin);
}

function byPassword(view, act) {
  const words = view.today && !view.device
    ? "The room does not know this device, so it takes no PIN. Sign in with name and password; a manager can enroll it."
    : "Sign in with name and password.";
  return html`${heading("Who is here?", words)}${keptNote(view)}
    ${bottom({ undo: back(view, act), primary: { label: "Sign in", act: () => location.assign("/sign-in/?next=/station/") } })}`;
}

function whoIsIt(view, act, people) {
  return html`${heading("Who is here?", "Tap your name, then your PIN.")}${keptNote(view)}
    <div class="keys people">${people.map((person) => html`
      <button class="key big" @click=${() => { pin = ""; act.set({ who: person.id, wrong: null }); }}>
        <span class="label">${person.name}</span><span class="below">${person.role}</span></button>`)}</div>
    ${view.signIn ? nothing : bottom({ undo: back(view, act) })}`;
}

function byPin(view, act, person) {
  const type = (digit) => { pin = (pin + digit).slice(0, LONGEST); act.set({ typed: pin.length, wrong: null }); };
  const enter = () => sendPin(act, person);
  return html`${heading(html`${person.name}, your PIN`, "")}${keptNote(view)}
    ${view.local.wrong ? notice("check", "Not signed in.", view.local.wrong) : nothing}
    <p class="dots numeral" role="status" aria-label=${`${pin.length} digits typed`}>${"•".repeat(pin.length) || "–"}</p>
    <div class="keys pad" role="group" aria-label="Digits">${DIGITS.map((digit) => html`
      <button class=${digit === "0" ? "key big numeral zero" : "key big numeral"} @click=${() => type(digit)}>${digit}</button>`)}
      <button class="key big" aria-label="Erase the last digit" @click=${() => { pin = pin.slice(0, -1); act.set({ typed: pin.length }); }}>${drawn("erase")}</button></div>
    ${bottom({
      undo: { label: "not me", act: () => { pin = ""; act.set({ who: null, wrong: null, typed: null }); } },
      primary: { label: "Sign in", act: enter, waits: pin.length < SHORTEST ? "at least four digits" : "" },
    })}`;
}

async function sendPin(act, person) {
  const said = pin;
  pin = "";
  try {
    await act.signIn(person.id, said);
    await act.set({ who: null, wrong: null, typed: null });
    if (location.hash === "#/person") act.go("#/who");
  } catch (error) {
    await act.set({ typed: null, wrong: words(error) });
  }
}

function words(error) {
  if (error.status === 429) {
    const until = error.said?.until ? new Date(error.said.until).toLocaleTimeString("en-US", { timeStyle: "short" }) : "";
    return until ? `Too many wrong PINs. It is open again at ${until}.` : "Too many wrong PINs. Wait, or ask the manager.";
  }
  if (error.status === 401) return "That PIN is not right. Type it again.";
  return error.status ? `The laptop answered: ${error.message}.` : "The laptop is not heard. Try again.";
}

function keptNote(view) {
  if (!view.unsent) return nothing;
  return notice("kept", `${view.unsent} kept here.`, "Nothing of it is lost; it goes when somebody has signed in.");
}

function back(view, act) {
  return view.signIn ? null : { label: "back", act: () => act.go("#/who") };
}

export function key(event, view, act) {
  const person = peopleOf(view).find((each) => each.id === view.local.who);
  if (!person) return;
  if (event.key === "Enter" && pin.length >= SHORTEST && !event.target.closest("button")) { sendPin(act, person); return; }
  if (event.key === "Backspace") pin = pin.slice(0, -1);
  else if (/^\d$/.test(event.key)) pin = (pin + event.key).slice(0, LONGEST);
  else return;
  act.set({ typed: pin.length });
}
