// Nothing can be shown before the laptop has answered, or while it thinks.
import { html } from "../../vendor/lit-html.js";
import { bottom, heading, waiting } from "../parts.js";

export function screen(view, act) {
  if (!view.today) {
    return html`${heading("Looking for the laptop")}
      ${waiting(view, "Asking for today's players.")}
      ${bottom({ primary: { label: "Try again", act: () => act.refresh() } })}`;
  }
  const thinks = view.visit || !view.unsent;
  return html`${heading(thinks ? "Looking for the next change" : "The visit begins")}
    ${waiting(view, thinks ? "The program goes through what this station holds. Some seconds at most." : "The laptop is being told.")}
    ${bottom({
      undo: view.visit ? { act: () => act.visit({ event: "undone" }) } : null,
      primary: { label: "Players", act: () => act.go("#/who") },
    })}`;
}
