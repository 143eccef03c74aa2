// What stands on the sign screen: it belongs to one acceptance, and an undo begins it anew.
import { kept } from "./kept.js";

/** What was shown, signed and found since the fit was accepted; nothing of what was there before. */
export const signing = (view, screen = "sign") => kept(view, screen).of === view.visit.count ? kept(view, screen) : {};

/** Keep something of it. */
export const sign = (view, act, patch) => act.set({ sign: { ...signing(view), ...patch, of: view.visit.count } });

/** Takes away what was signed, with the acceptance that is taken back. */
export const UNSIGNED = { sign: null, issued: null };
