export const TITLE = "The rest of this round";
export const NOTE = "Everything stands at good. Open what is not, and say what you find. Only say good what you have looked at.";
export const ALL = (count) => count === 1 ? "This one is good" : `All ${count} are good`;
export const SOME = (good, bad) => `${good} good, ${bad} not`;
export const SECOND = "Says all of them at once; undo takes them back one by one.";
export const ONE = "One by one";
export const open = (title, word) => `${title}: ${word}. Change the answer.`;
export const CHANGE = "change";
