// A section drawing from the laptop, put into the page. Colors come from the page's own classes.
import { html, nothing } from "../../vendor/lit-html.js";

const EDGE = 4;
const read = new Map();

/** The drawing as a node of its own; an ID that another drawing on the page may have is made its own. */
function node(svg, key, only) {
  const name = `${key} ${only} ${svg}`;
  if (!read.has(name)) {
    if (read.size > 8) read.clear();
    const root = new DOMParser().parseFromString(svg, "image/svg+xml").documentElement;
    read.set(name, root.nodeName === "svg" ? alone(own(document.importNode(root, true), key), only) : null);
  }
  return read.get(name);
}

function own(root, key) {
  for (const element of root.querySelectorAll("[id]")) element.id = `${key}-${element.id}`;
  const named = root.getAttribute("aria-labelledby");
  if (named) root.setAttribute("aria-labelledby", named.split(" ").map((id) => `${key}-${id}`).join(" "));
  return root;
}

/** One of its sections alone, as large as the room allows. */
function alone(root, only) {
  const chosen = only && root.querySelector(`[data-section="${only}"]`);
  if (!chosen) return root;
  for (const other of [...root.children]) if (other !== chosen && !["title", "desc"].includes(other.nodeName)) other.remove();
  document.body.append(root); // A box is measured where it is drawn, and nowhere else.
  const { x, y, width, height } = chosen.getBBox();
  root.remove();
  chosen.removeAttribute("transform");
  root.setAttribute("viewBox", `${x - EDGE} ${y - EDGE} ${width + 2 * EDGE} ${height + 2 * EDGE}`);
  return root;
}

/** A drawing with the words above it; nothing where there is none. */
export function drawing(svg, key, words = "", only = "") {
  const drawn = svg ? node(svg, key, only) : null;
  if (!drawn) return nothing;
  return html`<figure class="drawing">${words ? html`<figcaption>${words}</figcaption>` : nothing}${drawn}</figure>`;
}
