// Which screen has which name: parts of the address, and what a visit's message asks for.
import * as begin from "./begin.js";
import * as consent from "./consent.js";
import * as player from "./player.js";
import * as reading from "./reading.js";
import * as signIn from "./sign_in.js";
import * as unknown from "./unknown.js";
import { MESSAGES, WAYS } from "./visit.js";
import * as waiting from "./waiting.js";
import * as who from "./who.js";

export const SCREENS = {
  begin, consent, person: signIn, player, reading, sign_in: signIn, unknown, waiting, who,
  ...MESSAGES, ...WAYS,
};
