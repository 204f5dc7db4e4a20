/** Count of a tuplet -> the number of notes in whose time it is played, when only the count is written. Common practice, no source. */
export const USUAL_TUPLETS: ReadonlyMap<number, number> = new Map([
  [2, 3],
  [3, 2],
  [4, 3],
  [5, 4],
  [6, 4],
  [7, 4],
  [9, 8],
]);
