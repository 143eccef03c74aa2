export const PAUSED = "Paused";
export const PAUSED_NOTE = "Everything said so far is kept. Another station may go on with it.";
export const GO_ON = "Go on with this visit";
export const GO_ON_SECOND = "It asks what it asked before.";
export const TAKE = (station) => `${station} began this visit. Going on takes it over here.`;
export const ELSEWHERE = (station) => `${station} is fitting this player`;
export const ELSEWHERE_NOTE = (fitter) => fitter ? `${fitter} goes through the visit there.` : "The visit goes on there.";
export const ELSEWHERE_TAKE = "Take the visit over here";
export const ELSEWHERE_TAKE_SECOND = "What was said so far is kept; it goes on here.";
export const NEXT_PLAYER = "Next player";
export const STOPPED = "The visit is stopped";
export const STOPPED_NOTE = "This helmet is not accepted for this player.";
export const REASON = (reason) => `Said why: ${reason}`;
export const NO_BUILD = "Nothing here can be made to fit";
export const WHY = "Why.";
export const WOULD = "What would do";
export const LACKING = (parts) => `Not here: ${parts}.`;
export const WOULD_CHANCE = (chance, shell) => `Shell ${shell}: ${chance} of 100 that it fits`;
export const ASK = "Tell the manager what is lacking.";
export const NO_WOULD = "No build of this model would do for this head. Another model may.";
export const OTHER_MODEL = "Try another model";
export const STOP_IT = "Stop the visit";
export const STOP_TITLE = "Stop this visit";
export const STOP_WHY = "Why it stops";
export const STOP_REASONS = ["Called away.", "No time today.", "Player does not want this helmet.", "The helmet has a fault."];
export const STOP_ACT = "Stop, and keep what was said";
export const SYMPTOM = "Stop the fitting";
export const SYMPTOM_DO = "Tell the athletic trainer or a physician now; what comes next is theirs to decide. No change of pads is an answer to this.";
export const SYMPTOM_CAUTIONS = [
  "No change of fit is proposed for it. Whether the player goes on is for medical staff to say.",
  "Where neck or back may be hurt, helmet and face guard stay on; trained medical staff decide. After an injury set the helmet aside as it is, neither cleaned nor repaired.",
];
export const SAID = (words) => `Said: ${words}`;
export const CAUTIONS = "Cautions";
export const STOP_BACK = "Back to the visit";
export const WAITS_REASON = "a reason";
export const STUCK = "The program cannot go on";
export const TAKE_BACK = "Take the last answer back";
