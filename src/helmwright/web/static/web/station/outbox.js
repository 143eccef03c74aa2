// Everything that is said goes in here first, and leaves only when the laptop says that it has it,
// or why it has not. Several tabs may send the same entries at once: an entry has its own ID, so
// that costs a message and doubles nothing.
import { firmly } from "./keep.js";
import { NotHeard } from "./messages.js";

const BATCH = 50;
const FIRST_PAUSE = 1_000;
const LONGEST_PAUSE = 30_000;
const SHOWN_AHEAD = new Set(["reading taken", "reading withdrawn", "player wears", "consent given", "visit begun", "visit said"]);

function aboutOf({ id, corrects, payload }) {
  return [id, corrects, payload.visit, payload.player, payload.helmet, payload.reservation].filter(Boolean);
}

/** The same order on every device: as it was said. */
export class Outbox {
  /** @param keep as `openKeep` gives it
   *  @param post sends a list of entries and gives the laptop's answer
   *  @param changed is called when something went in or out, or the laptop was or was not heard
   *  @param mayGo whether an entry may go now: not all may go under everybody's name */
  constructor(keep, post, changed, mayGo = () => true) {
    Object.assign(this, { keep, post, changed, mayGo, pause: FIRST_PAUSE, sending: null, again: false });
    /** What the laptop could not keep when it was sent last; it stays here, and is sent again. */
    this.stuck = new Map();
    this.timer = 0;
    this.tabs = "BroadcastChannel" in globalThis ? new BroadcastChannel("helmwright-station") : null;
    this.tabs?.addEventListener("message", () => this.changed());
    addEventListener("online", () => this.send());
    document.addEventListener("visibilitychange", () => { if (!document.hidden) this.send(); });
  }

  /** Keeps an entry, and what the screen is to remember with it, both or neither. */
  async add(entry, remember = {}) {
    const write = firmly(this.keep, ["outbox", "local"]);
    write.objectStore("outbox").add({ entry });
    for (const [key, value] of Object.entries(remember)) write.objectStore("local").put(value, key);
    await write.done;
    this.tell();
  }

  /** What the laptop does not have yet, in order. */
  async unsent() {
    return (await this.keep.getAll("outbox")).map((row) => row.entry);
  }

  /** Sends what there is; where that fails, tries again by itself. */
  send() {
    clearTimeout(this.timer);
    if (this.sending) { this.again = true; return this.sending; }
    this.sending = this.round().finally(() => {
      this.sending = null;
      if (this.again) { this.again = false; this.send(); }
    });
    return this.sending;
  }

  async round() {
    try {
      this.stuck.clear();
      while (await this.batch());
      this.pause = FIRST_PAUSE;
      if (this.stuck.size) this.timer = setTimeout(() => this.send(), LONGEST_PAUSE);
    } catch (error) {
      if (!(error instanceof NotHeard)) console.error(error);
      this.changed({ failed: error });
      this.timer = setTimeout(() => this.send(), this.pause * (0.75 + Math.random() / 2));
      this.pause = Math.min(LONGEST_PAUSE, this.pause * 2);
    }
  }

  /** One batch; false where nothing is left that may go. */
  async batch() {
    const rows = this.free(await this.keep.getAll("outbox")).filter((row) => this.mayGo(row.entry)).slice(0, BATCH);
    if (!rows.length) return false;
    const answer = await this.post(rows.map((row) => row.entry));
    const dropped = await this.settle(rows, answer);
    for (const each of answer.stuck ?? []) this.stuck.set(each.id, each);
    this.tell({ heard: true });
    if (!dropped && !answer.stuck?.length) throw new NotHeard(0, "the laptop answered, and named none of the entries");
    return true;
  }

  /** All but what the laptop could not keep, and what follows on it: order counts between these. */
  free(rows) {
    const held = new Set();
    return rows.filter(({ entry }) => {
      const about = aboutOf(entry);
      if (!this.stuck.has(entry.id) && !about.some((each) => held.has(each))) return true;
      for (const each of about) held.add(each);
      return false;
    });
  }

  /** Drops exactly what stands under kept or refused, and keeps what a person has to read. */
  async settle(rows, answer) {
    const fates = new Map();
    for (const kept of answer.kept ?? []) fates.set(kept.id, kept);
    for (const refused of answer.refused ?? []) fates.set(refused.id, { ...refused, outcome: "refused" });
    const write = firmly(this.keep, ["outbox", "heard", "notices"]);
    let dropped = 0;
    for (const { n, entry } of rows) {
      const fate = fates.get(entry.id);
      if (!fate) continue;
      dropped += 1;
      write.objectStore("outbox").delete(n);
      if (fate.outcome !== "taken") write.objectStore("notices").put({ ...fate, entry });
      else if (SHOWN_AHEAD.has(entry.kind)) write.objectStore("heard").put({ id: entry.id, entry, since: Date.now() });
    }
    await write.done;
    return dropped;
  }

  tell(news) {
    this.changed(news);
    this.tabs?.postMessage("changed");
  }
}
