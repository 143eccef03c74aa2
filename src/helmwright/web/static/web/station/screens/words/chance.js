export const OF_WHAT = "of 100 heads that read like this one would be found right at this try-on";
export const HUNDRED = "100 of 100";
export const NEXT = "chance that the next try-on is found right";
export const tape = (at, words) => `${at} of 100: ${words}.`;
