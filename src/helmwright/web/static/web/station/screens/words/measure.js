export const TITLE = (name) => `Measure: ${name.toLowerCase()}`;
export const NOTE = "The program asks for it before it proposes.";
export const WHY = "Why.";
export const MINUTES = (minutes) => minutes < 1.5 ? "About a minute." : `About ${Math.round(minutes)} minutes.`;
export const HOW = "How";
export const NOW = "Measure it now";
export const NOW_SECOND = "Twice; then it proposes anew.";
export const SKIP = "Go on without it";
export const SKIP_SECOND = "The chance stays as it is.";
