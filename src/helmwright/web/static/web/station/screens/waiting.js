// Nothing can be shown before the laptop has answered, or while it thinks.
import { html } from "../../vendor/lit-html.js";
import { bottom, heading, waiting } from "../parts.js";
import { page, way } from "./page.js";

export function screen(view, act) {
  if (!view.today) {
    return html`${heading("Looking for the laptop")}
      ${waiting(view, "Asking for today's players.")}
      ${bottom({ primary: { label: "Try again", act: () => act.refresh() } })}`;
  }
  return view.path[0] === "visit" ? thinking(view, act) : html`${heading("Looking for the laptop")}${waiting(view, "Asking for today's players.")}`;
}

/** In a visit nothing is taken away while the program thinks: the way out for symptoms, undo, pause. */
function thinking(view, act) {
  const begins = !view.visit && view.unsent > 0;
  const title = view.visit?.try_ons?.length ? "Looking at what comes next" : "Looking for the first build";
  return page(view, act, {
    title: begins ? "The visit begins" : title,
    body: html`${waiting(view, begins ? "The laptop is being told." : "The program tries what this store holds on every head that reads like this one.")}
      <div class="ways">${way("Players", () => act.go("#/who"), "this goes on without you")}</div>`,
    primary: { label: begins ? "The visit" : view.visit?.try_ons?.length ? "What comes next" : "The first build", waits: view.online && !begins ? "the program" : "the laptop" },
  });
}
