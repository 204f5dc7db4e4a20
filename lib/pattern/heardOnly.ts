import type { Part } from "./model.js";

/** Whether a part is a recording without notes beside it: it is heard, and there is nothing to print or to play again. */
export function isHeardOnly({ recorded, variants }: Part): boolean {
  return recorded !== undefined && Object.values(variants).every((notes) => notes.length === 0);
}
