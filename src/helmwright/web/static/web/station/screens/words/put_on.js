export const TITLE = "Put these in, then put it on";
export const TITLE_NONE = "Put it on";
export const helmet = (code, shell) => `${code}, shell ${shell}`;
export const NO_HELMET = (shell) => `Shell ${shell}`;
export const NONE = "No pad has to be changed. The helmet is as it should be.";
export const OUT = "out";
export const INTO = "in";
export const LAST = "Last one in this store.";
export const NOT_HERE = "None here by the count. If one is in your hand, go on: the count is put right later.";
/** One word for a person: a pad of the front, rear or side is a pad. */
const PARTS = { "ring pad": "front, rear or side pad" };
export const HOW = (part) => `How to change it: ${PARTS[part] ?? part}`;
export const MAKER = "The maker's own steps.";
export const ON = "It is on the head";
export const ON_SECOND = "Then the checks, one by one.";
export const OTHER = "Another build";
export const NO_PART = "No such part here";
export const PART_NUMBER = (number) => `part ${number}`;
export const HAND = "Sit the player down first. Nothing is pulled over the ears with force.";
