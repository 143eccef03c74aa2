// What the laptop last answered, kept on this device so that a reload without it shows the same.
import { ask } from "./messages.js";
import { firmly } from "./keep.js";

/** Today's players and the visit that is open here. */
export class Laptop {
  constructor(keep) {
    this.keep = keep;
    this.today = null;
    this.visit = null;
    this.asking = new Map();
  }

  /** What was kept; yesterday's players are not shown, and not kept. */
  async recall(now = new Date()) {
    const [today, visit] = await Promise.all([this.keep.get("local", "today"), this.keep.get("local", "visit")]);
    if (today && new Date(today.server_time).toDateString() === now.toDateString()) {
      [this.today, this.visit] = [today, visit ?? null];
    } else {
      await this.forget();
    }
  }

  /** Nothing of a player stays but what the laptop has not got yet. */
  async forget() {
    [this.today, this.visit] = [null, null];
    const write = firmly(this.keep, ["local"]);
    for (const key of await write.store.getAllKeys()) if (key !== "person") write.store.delete(key);
    await write.done;
  }

  /** @throws NotHeard */
  askToday() {
    return this.once("today", async () => {
      const since = Date.now();
      this.today = await ask("/station/today");
      await this.heard("today", this.today, ({ entry, since: at }) => entry.kind !== "visit said" && at < since);
    });
  }

  /** @throws NotHeard */
  askVisit(id) {
    return this.once(id, async () => {
      const since = Date.now();
      const visit = await ask(`/station/visits/${id}`);
      this.visit = visit;
      await this.heard("visit", visit, ({ entry, since: at }) => entry.kind === "visit said"
        && (entry.payload.visit === id ? entry.payload.place < visit.count || at < since : at < since));
    });
  }

  /** Keeps the answer, and lets go of what it shows by now. */
  async heard(key, answer, isShown) {
    const write = firmly(this.keep, ["local", "heard"]);
    write.objectStore("local").put(answer, key);
    for (const row of await write.objectStore("heard").getAll()) {
      if (isShown(row)) write.objectStore("heard").delete(row.id);
    }
    await write.done;
  }

  /** The same question is not asked twice at a time. */
  once(key, work) {
    if (!this.asking.has(key)) {
      this.asking.set(key, work().finally(() => this.asking.delete(key)));
    }
    return this.asking.get(key);
  }
}
