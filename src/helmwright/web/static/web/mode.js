// The mode of the page is remembered by the device; the system's setting alone never decides.
const MODES = ["room", "night", "glare"];
const KEY = "helmwright-mode";

function remembered() {
  try { return localStorage.getItem(KEY); } catch { return null; }
}

function set(mode) {
  document.documentElement.dataset.mode = mode;
  for (const button of document.querySelectorAll("[data-set-mode]")) {
    button.setAttribute("aria-pressed", String(button.dataset.setMode === mode));
  }
}

set(MODES.includes(remembered()) ? remembered() : "room");
document.addEventListener("DOMContentLoaded", () => set(document.documentElement.dataset.mode));
document.addEventListener("click", (event) => {
  const button = event.target.closest("[data-set-mode]");
  if (!button) return;
  set(button.dataset.setMode);
  try { localStorage.setItem(KEY, button.dataset.setMode); } catch { /* remembered until the page goes */ }
});
