export const OWN_WORDS = "In other words";
export const NOTE = "Only what concerns the fit; it is kept with the visit and can be erased with the player.";
