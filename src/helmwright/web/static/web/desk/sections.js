// On a phone the sections of a build stand one below the other, so that their numbers can be read.
const NARROW = matchMedia("(max-width: 640px)");
const EDGE = 6;
const WORDS = ["from the side", "A–A, from above"];

document.addEventListener("htmx:afterSettle", () => apart());

function apart() {
  const svg = document.querySelector(".sections-figure > svg.sections");
  if (!svg || !NARROW.matches) return;
  const names = [...svg.querySelectorAll("[data-section]")].map((each) => each.dataset.section);
  const alone = names.map((name, place) => one(svg, name, place));
  svg.before(...alone.flatMap((each, place) => [words(place), each]));
  svg.remove();
}

/** A copy with one section alone, as large as the room allows. */
function one(svg, name, place) {
  const copy = svg.cloneNode(true);
  for (const each of [...copy.children]) if (!["title", "desc"].includes(each.nodeName) && each.dataset.section !== name) each.remove();
  for (const each of copy.querySelectorAll("[id]")) each.id = `${each.id}-${place}`;
  copy.setAttribute("aria-labelledby", copy.getAttribute("aria-labelledby").split(" ").map((id) => `${id}-${place}`).join(" "));
  svg.before(copy);
  const { x, y, width, height } = copy.querySelector("[data-section]").getBBox();
  copy.querySelector("[data-section]").removeAttribute("transform");
  copy.setAttribute("viewBox", `${x - EDGE} ${y - EDGE} ${width + 2 * EDGE} ${height + 2 * EDGE}`);
  copy.remove();
  return copy;
}

function words(place) {
  const said = document.createElement("b");
  said.textContent = WORDS[place] ?? "";
  return said;
}
