/** Chance of a clean take below which a rung is too hard to be worked at. Our choice: failing again and again teaches little. */
export const HARD = 0.2;
/** Takes of one rung in a session at most, however long it is. Our choice, against strain and against dullness. */
export const MOST_ON_A_RUNG = 12;
