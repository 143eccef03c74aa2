// The laptop asks for something that this page does not know.
import { html } from "../../vendor/lit-html.js";
import { bottom, heading } from "../parts.js";

export function screen(view, act) {
  return html`${heading("This page does not know what is asked", "It is older or newer than the laptop's program. Load it again.")}
    ${bottom({ primary: { label: "Players", act: () => act.go("#/who") } })}`;
}
