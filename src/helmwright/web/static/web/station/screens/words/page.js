export const UNDO = "undo";
export const HURT = "Hurt, dizzy, numb?";
