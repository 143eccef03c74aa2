// What is chosen or typed on a screen of a visit and not said yet. The shell keeps it, so that a reload returns to it.

/** What was chosen on this screen. */
export const kept = (view, screen) => view.local?.[screen] ?? {};

/** Choose something on it. */
export const keep = (view, act, screen, patch) => act.set({ [screen]: { ...kept(view, screen), ...patch } });

/** Begin it anew. */
export const forget = (act, screen) => act.set({ [screen]: {} });
