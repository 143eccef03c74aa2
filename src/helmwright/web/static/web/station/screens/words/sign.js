export const TITLE = "It fits. Read it, then sign.";
export const SUMMARY = (tryOns) => tryOns === 1 ? "One try-on." : `${tryOns} try-ons.`;
export const SCORES = "Five sub-scores, each by itself; they are not added up";
export const OF = (right, answered) => `${right} of ${answered} in order`;
export const BUILD = "In the helmet";
export const READ_ALOUD = "Read aloud, then ask.";
export const NO_WARNING = "The room has no warning text yet. Read the label on the shell aloud; the manager adds the program's text.";
export const SHOWED = "What the player showed";
export const SHOWED_ALL = [
  "Put it on, fastened every point and looked it over, alone",
  "Read the warning label on the shell, or it was read aloud",
];
export const PLAYER = (name) => `Player, ${name}`;
export const GUARDIAN = (name) => `Parent or guardian of ${name}`;
export const MINOR = "A minor: a parent or guardian signs, and the rules of the league and the state come first.";
export const NO_CONSENT = "No consent of a parent or guardian is on record.";
export const FITTER = (name) => `Fitter, ${name}`;
export const DRAW = "Sign here with a finger";
export const TYPE = "Type the name instead";
export const TYPED = "Name, typed as the signature: at least two letters";
export const DRAW_INSTEAD = "Draw it instead";
export const CLEAR = "Clear it";
export const PURPOSE = "For";
export const PURPOSES = [["game and practice", "game and practice"], ["game", "game"], ["practice", "practice"]];
export const ISSUE = "Sign and issue";
export const ISSUE_SECOND = (name) => `${name} holds it from now on.`;
export const WAITS_HELMET = "the code of the helmet on the head";
export const WAITS_SHOWED = "what the player has to show";
export const WAITS_PLAYER = "the player's signature";
export const WAITS_GUARDIAN = "the guardian's signature";
export const WAITS_FITTER = "the fitter's signature";
export const WAITS_GOOD = (code) => `a helmet that may be issued: ${code} may not`;
export const REFUSED = "It was not issued.";
export const REFUSED_DO = "What was signed is kept. Put right what it says, or take another helmet and fit that one.";
export const KEPT = "Kept on this device. The laptop does not have it yet.";
export const CAUTION = "The marks above say what was found, and no more: no helmet prevents every injury.";
export const CODE = "Code on the label of the helmet that is on the head";
export const FIND = "Find it";
export const NO_SUCH = (code) => `No helmet with the code ${code} was found; read the label again.`;
