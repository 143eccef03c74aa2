// The station: one state, one loop. What happens goes into the outbox; what is shown is made from
// the laptop's last answers and the outbox.
//
// A screen is `screen(view, act)` in screens/, without side effects; `screens/table.js` names them.
//   view.today      the laptop's answer to /station/today; its players with what was said here
//   view.player     the player of this address, or of its visit; null without
//   view.visit      the laptop's answer to /station/visits/<id>; null until it came
//   view.message    what is asked now, with what was said here since; null while the laptop thinks
//   view.pending    events of the visit that the laptop's answer does not count yet
//   view.local      half-typed things of this player, visit or screen; kept on the device
//   view.path       the parts of the address: ["visit", id]
//   view.online, view.unsent (how many are kept here), view.setAside (what somebody has to read)
//   act.say(kind, payload, {remember, corrects})   keeps an entry, then sends it
//   act.visit(event, words, {remember})            the next event of the visit on the screen
//   act.set(patch)   half-typed things; null takes one away      act.go(hash)      act.refresh()
import { render } from "../vendor/lit-html.js";
import { messageAhead, nextPlace, pendingOf, playersAhead } from "./ahead.js";
import { frame } from "./frame.js";
import { firmly, openKeep } from "./keep.js";
import { Laptop } from "./laptop.js";
import { ask, NotHeard, tell } from "./messages.js";
import { Outbox } from "./outbox.js";
import { parts, placeOf, runsElsewhere, screenName } from "./route.js";
import { SCREENS } from "./screens/table.js";
import { serviceWorker } from "./release.js";
import { uuid7 } from "./uuid7.js";

const ASK_AGAIN = 3_000;
const LOOK_ROUND = 30_000;
const ANSWERED = "The laptop answered:";
// Asking again at once would change nothing.
const FINAL = new Set([401, 403, 404]);

class Station {
  constructor(keep, root) {
    this.keep = keep;
    this.root = root;
    this.laptop = new Laptop(keep);
    this.outbox = new Outbox(
      keep, (entries) => tell("/station/entries", { entries }), (news) => this.changed(news), (entry) => this.mayGo(entry),
    );
    Object.assign(this, {
      person: null, online: true, signIn: false, fault: "", shown: "", isBehind: false, release: { alone: false, start: null },
      unsent: [], heard: [], notices: [], local: {}, busy: null, timer: 0,
    });
    this.act = {
      say: (kind, payload, options) => this.inTurn(() => this.say(kind, payload, options)),
      visit: (event, words, options) => this.inTurn(() => this.sayVisit(event, words, options)),
      set: (patch) => this.set(patch),
      go: (hash) => { location.hash = hash; },
      refresh: () => this.refresh(),
      find: (code, player = "") => ask(`/station/find?code=${encodeURIComponent(code)}&player=${player}`),
      lookOver: (player, readings) => tell("/station/look-over", { player, readings }),
      seen: (id) => this.seen(id),
      signIn: (staff, pin) => this.signInWith(staff, pin),
      id: uuid7,
    };
  }

  async start() {
    await this.laptop.recall();
    this.person = (await this.keep.get("local", "person")) ?? null;
    addEventListener("hashchange", () => this.arrive());
    document.addEventListener("visibilitychange", () => { if (!document.hidden) this.refresh(); });
    document.addEventListener("click", (event) => { if (event.target.closest("[data-set-mode]")) this.draw(); });
    document.addEventListener("keydown", (event) => this.key(event));
    setInterval(() => { if (this.path[0] !== "visit" && !document.hidden) this.refresh(); }, LOOK_ROUND);
    serviceWorker((release) => { this.release = release; this.draw(); });
    await this.arrive();
    this.outbox.send();
  }

  /** Another address: its half-typed things, then what the laptop knows of it. */
  async arrive() {
    this.path = parts(location.hash);
    this.fault = "";
    this.local = (await this.keep.get("local", placeOf(this.path))) ?? {};
    await this.reread();
    this.draw();
    await this.refresh();
  }

  /** Something went in or out of the outbox, here or in another tab. */
  async changed(news = {}) {
    if (news.heard) this.online = true;
    if (news.failed) this.missed(news.failed);
    await this.reread();
    this.draw();
    if (!news.heard) return;
    if (this.isBehind && !this.waits()) await this.refresh();
    else if (this.path[0] === "visit" && this.view().message === null) await this.heardFrom(() => this.askVisit());
  }

  async reread() {
    const before = this.notices.length;
    [this.unsent, this.heard, this.notices] = await Promise.all([
      this.outbox.unsent(), this.keep.getAll("heard"), this.keep.getAll("notices"),
    ]);
    this.heard.sort((one, other) => (one.id < other.id ? -1 : 1));
    // What had no effect tells of something that the laptop's last answer does not know yet.
    if (this.notices.length > before) this.isBehind = true;
  }

  /** Whether something of the visit on the screen is not at the laptop yet. */
  waits() {
    return this.path[0] === "visit" && this.unsent.some((entry) => entry.payload.visit === this.path[1]);
  }

  /** Ask the laptop for what this address shows. */
  refresh() {
    return this.heardFrom(async () => {
      await this.laptop.askToday();
      await this.recognize(this.laptop.today.person);
      if (this.path[0] === "visit") await this.askVisit();
      else this.isBehind = false;
    });
  }

  /** Whether it is heard shows on every screen; where it is not, it is asked again. */
  async heardFrom(question) {
    clearTimeout(this.timer);
    try {
      await question();
      this.online = true;
      if (this.fault.startsWith(ANSWERED)) this.fault = "";
    } catch (error) {
      this.missed(error);
      if (!FINAL.has(error.status)) this.timer = setTimeout(() => this.refresh(), ASK_AGAIN);
    }
    await this.reread();
    this.draw();
  }

  /** The visit, once the laptop has all that was said of it here. */
  async askVisit() {
    const id = this.path[1];
    if (this.waits() || !id) return;
    this.isBehind = false;
    await this.laptop.askVisit(id);
    await this.reread();
    if (this.path[1] === id && this.view().message === null) this.timer = setTimeout(() => this.refresh(), ASK_AGAIN);
  }

  missed(error) {
    if (!(error instanceof NotHeard)) {
      this.fault = `This page has a fault (${error?.message ?? error}). Nothing is lost: load it again.`;
      console.error(error);
      return;
    }
    this.online = error.status !== 0 && (error.status < 500 || Boolean(error.said));
    if (error.status === 401) { this.signIn = true; this.askWho(); }
    else if (error.status === 404 && this.path[0] === "visit") this.fault = "The laptop does not know this visit.";
    else if (this.online) this.fault = `${ANSWERED} ${error.message}`;
  }

  /** Who may type a PIN here, on a device that the laptop knows; it says so before anybody has. */
  async askWho() {
    try {
      this.hands = (await ask("/pin")).people;
    } catch {
      this.hands = null;
    }
    this.draw();
  }

  /** Under whose name the next entries go. */
  async recognize(person) {
    if (!person) { this.signIn = true; return; }
    this.signIn = false;
    if (this.person?.id === person.id) return;
    this.person = person;
    await this.keep.put("local", person, "person");
    this.outbox.send();
  }

  /** A device that the laptop does not know sends only what the one who is signed in has said. */
  mayGo(entry) {
    return Boolean(this.laptop.today?.device) || entry.by === this.person?.id;
  }

  async signInWith(staff, pin) {
    const person = await tell("/pin", { staff, pin });
    await this.recognize(person);
    await this.refresh();
    this.outbox.send();
  }

  /** One act at a time: a second tap while the first is being written is no second act. */
  async inTurn(work) {
    if (this.busy) return false;
    this.busy = work().catch((error) => this.notKept(error));
    const done = await this.busy;
    this.busy = null;
    this.draw();
    return done;
  }

  notKept(error) {
    this.fault = `This could not be kept on this device (${error?.message ?? error}). Write it down, and tell the manager.`;
    console.error(error);
    return false;
  }

  async say(kind, payload, { remember = {}, corrects = null, id = uuid7() } = {}) {
    const entry = { id, kind, at: new Date().toISOString(), by: this.person?.id ?? null, payload, corrects };
    if (!entry.by) { this.signIn = true; return false; }
    const local = patched(this.local, remember);
    await this.outbox.add(entry, { [placeOf(this.path)]: local });
    this.local = local;
    await this.reread();
    this.outbox.send();
    return entry.id;
  }

  sayVisit(event, words = "", options = {}) {
    const view = this.view();
    // A symptom is said before the laptop has answered with the visit that begins.
    const visit = view.visit ?? { visit: this.path[1], player: view.player?.id, count: 1 };
    const pending = pendingOf(visit.visit, visit.count, this.said());
    const payload = { visit: visit.visit, player: visit.player, place: nextPlace(visit.count, pending), event };
    return this.say("visit said", words ? { ...payload, words } : payload, options);
  }

  async set(patch) {
    await this.busy;
    this.local = patched(this.local, patch);
    this.draw();
    await this.keep.put("local", this.local, placeOf(this.path));
    return true;
  }

  async seen(id) {
    const write = firmly(this.keep, ["notices"]);
    write.store.delete(id);
    await write.done;
    await this.outbox.tell();
  }

  /** What was said here and is not in the laptop's answers yet, in order. */
  said() {
    return [...this.heard.map((row) => row.entry), ...this.unsent];
  }

  view() {
    const { today } = this.laptop;
    const said = this.said();
    const id = this.path[0] === "visit" ? this.path[1] : null;
    const visit = id && this.laptop.visit?.visit === id ? this.laptop.visit : null;
    const begun = said.find(({ kind, payload }) => kind === "visit begun" && payload.visit === id);
    const players = today ? playersAhead(today.players, said) : [];
    const whose = visit?.player ?? begun?.payload.player ?? players.find((each) => id && each.visit === id)?.id ?? (this.path[0] === "player" ? this.path[1] : null);
    const pending = visit ? pendingOf(id, visit.count, said) : [];
    return {
      isTakenOver: said.some(({ kind, payload }) => kind === "visit taken over" && payload.visit === id),
      today: today && { ...today, players }, visit, pending, path: this.path, local: this.local,
      player: players.find((player) => player.id === whose) ?? null,
      message: visit ? messageAhead(visit.message, pending) : null,
      person: this.person, device: today?.device ?? null, hands: this.hands ?? null, online: this.online, signIn: this.signIn,
      unsent: this.unsent.length, held: this.unsent.filter((entry) => !this.mayGo(entry)).length,
      setAside: this.notices, stuck: this.unsent.filter((entry) => this.outbox.stuck.has(entry.id)), fault: this.fault, release: this.release, mode: document.documentElement.dataset.mode,
    };
  }

  nameOf(view) {
    if (view.signIn) return "sign_in";
    if (!view.today) return "waiting";
    const name = screenName(this.path, view.visit && { message: view.message });
    return name !== "hurt" && runsElsewhere(view) ? "elsewhere" : name;
  }

  draw() {
    const view = this.view();
    const name = this.nameOf(view);
    const { screen } = SCREENS[name] ?? SCREENS.unknown;
    render(frame(view, this.act, screen(view, this.act)), this.root);
    this.arriveAt(`${name} ${this.path.join("/")} ${this.root.querySelector("h1")?.textContent}`);
  }

  /** A new screen is told to those who do not see it, and begins at its heading. */
  arriveAt(shown) {
    if (shown === this.shown) return;
    const isFirst = this.shown === "";
    this.shown = shown;
    const heading = this.root.querySelector("h1");
    document.title = `${heading?.textContent.trim() ?? "Station"} · Helmwright`;
    if (isFirst || !heading) return;
    heading.focus({ preventScroll: true });
    scrollTo(0, 0);
  }

  /** A code reader types wherever it is; the screen that is shown may want it. */
  key(event) {
    const view = this.view();
    if (!event.target.closest("input, textarea, select")) SCREENS[this.nameOf(view)]?.key?.(event, view, this.act);
  }
}

function patched(local, patch) {
  return Object.fromEntries(Object.entries({ ...local, ...patch }).filter(([, value]) => value !== null));
}

const root = document.getElementById("station");
try {
  await new Station(await openKeep(), root).start();
} catch (error) {
  console.error(error);
  root.textContent = "This browser cannot keep anything on this device, so it cannot be a station."
    + " Leave private browsing, or use another browser.";
}
