// Who has what from now on, what can be printed, and the next player.
import { html } from "../../vendor/lit-html.js";
import * as say from "./words/issued.js";
import { page } from "./page.js";
import { signing } from "./signing.js";
import { status } from "../marks.js";

/** The signatures of this visit that the laptop did not take, with why. */
export const refusedSignatures = (view) => (view.setAside ?? []).find(({ entry }) => entry?.kind === "acknowledged" && entry.payload.visit === view.visit.visit);

/** The issue of this visit that had no effect, with why. */
export const refusedIssue = (view) => (view.setAside ?? []).find(({ entry }) => ["helmet issued", "acknowledged"].includes(entry?.kind) && entry.payload.visit === view.visit.visit);

export function issued(view, act) {
  const { code } = signing(view, "issued"), atLaptop = !view.unsent;
  return page(view, act, {
    title: say.TITLE(view.player?.name ?? "", code), undo: false, hurt: false,
    second: status(atLaptop ? "yes" : "kept", atLaptop ? say.HAS : say.KEPT),
    body: html`<h2>${say.PRINT}</h2>
      ${atLaptop ? html`<div class="ways"><a class="act" href=${`/paper/label/${code}`} target="_blank" rel="noopener">${say.LABEL}</a>
      <a class="act" href=${`/paper/card/${view.visit.visit}`} target="_blank" rel="noopener">${say.CARD}</a></div>` : html`<p>${say.NO_PRINT}</p>`}
      <p>${say.AGAIN}</p><p>${say.TELL}</p>`,
    primary: { label: say.NEXT, act: () => act.go("#/who") },
  });
}
