export const TITLE = "Hurt, dizzy, numb?";
export const NOTE = "Any of these ends the fitting. They are common cautions and no medical advice.";
export const SIGNS = [
  "A headache, or pressure in the head, that stays when the helmet is off.",
  "Numbness or tingling anywhere.",
  "Dizziness, trouble with balance, or feeling in a fog.",
  "Pain in the neck.",
  "Blurred or double vision, or light that hurts.",
  "Feeling sick, or vomiting.",
  "Anything at all that is felt after a hit to head or neck.",
];
export const WORDS = "What the player says, in a few words";
export const YES = "Yes: stop the fitting";
export const YES_SECOND = "Tell the athletic trainer or a physician now.";
export const NO = "No, none of these: go on";
export const SPOT = "A pad that presses in one spot, and stops when it is off, is a finding of the fit: answer the check.";
