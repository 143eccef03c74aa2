// What this device keeps, in IndexedDB: it is there after a reload, a closed tab, a killed browser.
//
// outbox   entries that the laptop has not acknowledged, in the order in which they were said
// heard    entries that it has taken and whose effect its last answer does not show yet
// notices  entries that it refused or set aside, until somebody has seen it
// local    half-typed things by place, and the laptop's last answers
import { openDB } from "../vendor/idb.js";

export const NAME = "helmwright-station";

/** Opens what is kept; another tab with a newer release may ask this one to let go. */
export async function openKeep() {
  const keep = await openDB(NAME, 1, {
    upgrade(db) {
      db.createObjectStore("outbox", { keyPath: "n", autoIncrement: true });
      db.createObjectStore("heard", { keyPath: "id" });
      db.createObjectStore("notices", { keyPath: "id" });
      db.createObjectStore("local");
    },
    blocking() { keep.close(); },
  });
  return keep;
}

/** A transaction that is on the disk when it is done, not only on its way there. */
export function firmly(keep, stores) {
  return keep.transaction(stores, "readwrite", { durability: "strict" });
}
