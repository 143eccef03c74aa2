// The fitter ends the visit, and says why.
import { html } from "../../vendor/lit-html.js";
import * as say from "./words/ends.js";
import { page, way } from "./page.js";
import { reasonOf, reasons } from "./reason.js";

export function screen(view, act) {
  const reason = reasonOf(view, "stop"), back = `#/visit/${view.visit.visit}`;
  return page(view, act, {
    title: say.STOP_TITLE, second: say.STOPPED_NOTE,
    body: html`${reasons(view, act, "stop", say.STOP_WHY, say.STOP_REASONS)}<div class="ways">${way(say.STOP_BACK, () => act.go(back))}</div>`,
    primary: { label: say.STOP_ACT, waits: reason ? "" : say.WAITS_REASON, act: async () => {
      await act.visit({ event: "stopped" }, reason, { remember: { stop: null } });
      act.go(back);
    } },
  });
}
