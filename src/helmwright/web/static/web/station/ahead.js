// What the laptop last answered, with what was said here since then on top. Pure: the screens show
// it at once, and the laptop's next answer takes its place.

/** Players as they are with what was said here.
 * @param players of the laptop's answer
 * @param said entries since then, in order */
export function playersAhead(players, said) {
  const byId = new Map(players.map((player) => [player.id, player]));
  for (const entry of said) {
    const player = byId.get(entry.payload.player);
    const change = CHANGES[entry.kind];
    if (player && change) byId.set(player.id, change(player, entry));
  }
  return players.map((player) => byId.get(player.id));
}

const CHANGES = {
  "reading taken": (player, { id, at, payload }) => player.readings.some((each) => each.id === id) ? player : {
    ...player,
    readings: [...player.readings, { id, at, measure: payload.measure, value_mm: payload.value_mm, over: payload.over }],
  },
  "reading withdrawn": (player, { payload }) => ({
    ...player, readings: player.readings.filter((each) => each.id !== payload.reading),
  }),
  "player wears": (player, { payload }) => ({ ...player, worn: payload.worn, glasses: payload.glasses }),
  "consent given": (player, { payload }) => ({ ...player, consent: player.consent || payload.about === "fitting" }),
  "visit begun": (player, { payload }) => ({ ...player, visit: payload.visit }),
};

/** Events of one visit that were said here and that the laptop's answer does not count yet.
 * @returns {{place: number, event: object}[]} */
export function pendingOf(visitId, count, said) {
  return said
    .filter(({ kind, payload }) => kind === "visit said" && payload.visit === visitId && payload.place >= count)
    .map(({ payload }) => ({ place: payload.place, event: payload.event }));
}

/** The place of the next event of a visit. */
export function nextPlace(count, pending) {
  return pending.reduce((place, each) => Math.max(place, each.place + 1), count);
}

/** The laptop's message with what was said here since; null where it has to think first.
 * A round of checks goes on whatever its answers say, so the next check needs no word of the laptop. */
export function messageAhead(message, pending) {
  if (!message) return null;
  const standing = stillStanding(pending);
  if (standing === null) return null;
  if (!standing.length) return message;
  const end = AT_ONCE[standing.at(-1).event];
  if (end) return end;
  const round = message.message === "proposal" ? message.next : message;
  if (round.message !== "checks" || standing.some((event) => event.event !== "answered")) return null;
  const answered = new Set(standing.map((event) => event.check));
  const checks = round.checks.filter((check) => !answered.has(check.check));
  return checks.length ? { ...round, checks } : null;
}

/** What is shown without waiting for the laptop, for it says no more than the person did. */
const AT_ONCE = {
  paused: { message: "paused" },
  stopped: { message: "stopped", reason: "", cautions: [] },
  "symptom reported": { message: "symptom", words: "", do: "", cautions: [] },
};

/** Events without those that were taken back here; null where what is taken back was said before. */
function stillStanding(pending) {
  const standing = [];
  for (const { event } of pending) {
    if (event.event === "undone" && !standing.length) return null;
    if (event.event === "undone" || (event.event === "resumed" && standing.at(-1)?.event === "paused")) standing.pop();
    else standing.push(event);
  }
  return standing;
}
