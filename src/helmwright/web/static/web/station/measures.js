// The measures in the order in which they are taken, and what is known of each. Pure.
const ORDER = ["tape_circumference", "head_length", "head_breadth", "brow_to_top", "jaw_pad_width"];
const TITLES = {
  tape_circumference: "Around the head",
  head_length: "Front to back",
  head_breadth: "Side to side",
  brow_to_top: "Brow to top",
  jaw_pad_width: "Across the jaw",
};
const HEADWEAR = new Set(["skull cap", "winter cap"]);

/** The five that a fitting takes, of those that the laptop knows. */
export function inOrder(measures) {
  return ORDER.map((key) => measures.find((measure) => measure.key === key)).filter(Boolean);
}

/** A measure as the screens call it everywhere; the laptop's words where they have none of their own. */
export function titleOf(measure) {
  return TITLES[measure.key] ?? `${measure.name[0].toUpperCase()}${measure.name.slice(1)}`;
}

export function readingsOf(player, key) {
  return player.readings.filter((reading) => reading.measure === key);
}

/** The first that has not been read and was not skipped. */
export function nextMeasure(measures, player, skipped = []) {
  return inOrder(measures).find(({ key }) => !skipped.includes(key) && !readingsOf(player, key).length) ?? null;
}

/** What a reading is taken over: the cap, and beneath it the hair; or the hair alone. */
export function takenOver(worn = []) {
  const cap = worn.find((each) => HEADWEAR.has(each));
  const hair = worn.find((each) => !HEADWEAR.has(each));
  return { over: cap ?? hair ?? "not stated", beneath: cap ? hair ?? null : null };
}

/** How far the readings lie apart, and whether another one is asked for. */
export function apart(values, limit) {
  const distance = values.length > 1 ? Math.max(...values) - Math.min(...values) : 0;
  return { distance, tooFar: distance > limit };
}

/** The shortest beginning of an instruction that can be acted on: whole sentences, never a clause. */
const SHORTEST = 60;

/** An instruction in short, and what is left of it. */
export function inShort(how) {
  const sentences = how.split(/(?<=[.])\s+/);
  let first = sentences.shift();
  while (sentences.length && first.length < SHORTEST) first = `${first} ${sentences.shift()}`;
  return { first, rest: sentences.join(" ") };
}
