// Status: shape, color and word, never one alone. The shapes are those of the desk.
import { html, svg } from "../vendor/lit-html.js";

const SHAPES = {
  yes: svg`<circle cx="12" cy="12" r="9" />`,
  check: svg`<path d="M12 2 23 21H1Z" />`,
  no: svg`<path fill-rule="evenodd" d="M2 2h20v20H2ZM6.2 19.2l13-13-1.4-1.4-13 13Z" />`,
  hold: svg`<path fill-rule="evenodd" d="M2 2h20v20H2ZM5 5v14h14V5Zm3 3h3v8H8Zm5 0h3v8h-3Z" />`,
  kept: svg`<path fill-rule="evenodd" d="M12 2a10 10 0 1 0 0 20 10 10 0 0 0 0-20Zm0 2.5a7.5 7.5 0 0 1 7.5 7.5h-15A7.5 7.5 0 0 1 12 4.5Z" />`,
  unknown: svg`<circle cx="12" cy="12" r="9" class="dashed" />`,
  proposed: svg`<path class="line" d="M12 2 22 12 12 22 2 12Z" />`,
  visit: svg`<path class="line" d="M12 2 22 12 12 22 2 12Z" /><path d="M2 12h20L12 22Z" />`,
  fitted: svg`<path d="M12 2 22 12 12 22 2 12Z" />`,
};
const DRAWN = {
  undo: svg`<path d="M9 4 3 10l6 6M3 10h13a6 6 0 0 1 0 12h-3" />`,
  next: svg`<path d="M2 12h19M13 4l8 8-8 8" />`,
  back: svg`<path d="M22 12H3M11 4l-8 8 8 8" />`,
  erase: svg`<path d="M8 5h14v14H8L1 12ZM12 9l6 6m0-6-6 6" />`,
};

/** The shape alone; its word must stand beside it. */
export function mark(name) {
  return html`<svg class="mark" viewBox="0 0 24 24" aria-hidden="true">${SHAPES[name] ?? SHAPES.unknown}</svg>`;
}

/** A line drawing on a key: undo, next, back, erase. */
export function drawn(name) {
  return html`<svg class="drawn" viewBox="0 0 24 24" aria-hidden="true">${DRAWN[name]}</svg>`;
}

export function status(name, words) {
  return html`<span class="status ${name}">${mark(name)}<span>${words}</span></span>`;
}
