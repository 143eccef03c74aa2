export const LOST = "Somebody else was first.";
export const LOST_DO = "Take another helmet or another build. Nothing else of this visit is lost.";
