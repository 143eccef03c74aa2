export const OF_WHAT = "of 100 heads that read like this one would be found right at this try-on";
export const HUNDRED = "100 of 100";
export const NEXT = "chance that the next try-on is found right";
export const tape = (at, was, words) => was === null ? `${at} of 100: ${words}.` : `${was} of 100 now, ${at} of 100 expected: ${words}.`;
