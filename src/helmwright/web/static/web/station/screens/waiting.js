// Nothing can be shown before the laptop has answered, or while it thinks.
import { html } from "../../vendor/lit-html.js";
import { bottom, heading, waiting } from "../parts.js";

export function screen(view, act) {
  if (!view.today) {
    return html`${heading("Looking for the laptop")}
      ${waiting(view, "Asking for today's players.")}
      ${bottom({ primary: { label: "Try again", act: () => act.refresh() } })}`;
  }
  const begins = !view.visit && view.unsent > 0;
  const title = view.visit?.try_ons?.length ? "Looking for the next change" : "Looking for the first build";
  return html`${heading(begins ? "The visit begins" : title)}
    ${waiting(view, begins ? "The laptop is being told." : "The program tries what this store holds on every head that reads like this one.")}
    ${bottom({
      undo: canUndo(view) ? { act: () => act.visit({ event: "undone" }) } : null,
      primary: { label: "Players", act: () => act.go("#/who") },
    })}`;
}

/** Whether a person has said anything in this visit. */
function canUndo({ visit, pending }) {
  return Boolean(visit && (visit.undo || pending.some(({ event }) => event.event !== "undone")));
}
