// Which screen stands under an address of the station; nothing is done here.

/** "#/player/5f…/reading" in its parts.
 * @returns {string[]} */
export function parts(hash) {
  return hash.replace(/^#?\/?/, "").split("/").filter(Boolean).map(decodeURIComponent);
}

/** What half-typed things belong to: a player, a visit, or the screen itself. */
export function placeOf(path) {
  return `at ${path.slice(0, path[0] === "player" || path[0] === "visit" ? 2 : 1).join("/")}`;
}

/** The name of the screen that is due. */
export function screenName(path, visit) {
  if (path[0] === "player") return path[2] ?? "player";
  if (path[0] === "visit") return path[2] ?? visit?.message?.message ?? "waiting";
  return path[0] ?? "who";
}

/** What a visit asks of whoever stands beside the player. */
const ASKED = new Set(["proposal", "measure", "put on", "checks", "look"]);

/** Whether the visit on the screen is being fitted at another station, and nobody took it over here. */
export function runsElsewhere({ visit, message, device, isTakenOver }) {
  return !isTakenOver && ASKED.has(message?.message) && isOfAnother({ visit, device });
}

/** Whether a visit is another station's. */
export const isOfAnother = ({ visit, device }) => Boolean(visit.station) && visit.station.id !== device?.id;
