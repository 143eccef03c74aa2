// Which screen a visit shows: by what its message asks for, and by the ways that lead off it.
import * as check from "./check.js";
import * as ends from "./ends.js";
import * as hurt from "./hurt.js";
import * as measure from "./measure.js";
import * as measuring from "./measuring.js";
import * as other from "./other.js";
import * as proposal from "./proposal.js";
import * as putOn from "./put_on.js";
import * as round from "./round.js";
import * as sign from "./sign.js";
import * as stop from "./stop.js";
import * as unknown from "./unknown.js";
import { screen as waiting } from "./waiting.js";

const screenOf = (screen) => ({ screen });

/** By the message that waits for an answer. */
export const MESSAGES = {
  proposal, measure, "put on": putOn, checks: check, look: screenOf(check.look), accepted: sign,
  paused: screenOf(ends.paused), "no build": screenOf(ends.noBuild), error: screenOf(ends.stuck), stopped: screenOf(ends.stopped), elsewhere: screenOf(ends.elsewhere), symptom: screenOf(ends.symptom),
};

/** A way off the message that waits; where that is another one by now, its own screen stands here. */
function way(screen, ...asked) {
  return { screen: (view, act) => {
    if (!view.visit || !view.message) return waiting(view, act);
    if (asked.length && !asked.includes(view.message.message)) return (MESSAGES[view.message.message] ?? unknown).screen(view, act);
    return screen(view, act);
  } };
}

/** By the last part of the address. */
export const WAYS = {
  hurt, stop: way(stop.screen), measuring: { screen: (view, act) => way(view.message && measuring.isKnown(view) ? measuring.screen : proposal.screen, "measure", "proposal").screen(view, act) }, round: way(round.screen, "checks", "proposal"),
  other: way(other.other, "proposal", "put on"), leave: way(other.leave, "proposal"), "no-part": way(other.noPart, "proposal", "put on"),
};

/** The screen for the message of a view. */
export const screen = (view, act) => MESSAGES[view.message.message].screen(view, act);
