import type { Temper } from "../grades.js";
import type { Stage } from "../stage.js";
import type { Draws } from "./law.js";

/** Independent normal displacements of the notes, seconds. */
export function handOf({ note }: Stage, { hand }: Temper, draws: Draws): Float64Array {
  return draws("hand", note.length).map((draw) => hand * draw);
}
