export const ZONES = {
  front: "front", crown: "crown", rear: "rear", nape: "nape", left: "left", right: "right", "jaw left": "jaw left", "jaw right": "jaw right",
};
export const INCHES = "Pads in inches, as on the bag.";
export const ORDER = ["front", "crown", "rear", "nape", "left", "right", "jaw left", "jaw right"];
export const number = (zone) => ORDER.indexOf(zone) + 1;
export const PRESSURE = (kpa) => `${kpa.toFixed(1)} kPa`;
export const GAP = "gap";
export const AIR = "air";
export const here = (count) => count === 1 ? "last one" : count > 1 ? `${count} here` : "none here";
export const SAME = "as it is";
export const LIST_NOTE = "Size of each pad in inches, expected mean pressure or gap, and how many more lie in this store.";
export const ASSUMED = "Pressure and gap are expected, not measured. What counts as loose or tight is assumed; the hand on the head decides.";
export const LEFT = "Left and right are the wearer's.";
export const INVENTED = "Invented model";
export const model = (name, shell) => `${name}, shell ${shell}`;
export const shell = (shell) => `Shell ${shell}`;
export const NO_CHANGES = "No pad has to be changed.";
export const changes = (count) => count === 1 ? "1 pad to change" : count ? `${count} pads to change` : "no pad to change";
export const lacking = (count) => count === 1 ? "1 pad not here" : `${count} pads not here`;
export const pad = (zone) => `${ZONES[zone][0].toUpperCase()}${ZONES[zone].slice(1)} pad`;
export const WAITS = "a helmet of this shell";
