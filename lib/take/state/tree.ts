/** The tree of readings: every node is one expected note as one reading met it. */
export interface Tree {
  /** @param onset the paired onset, -1 when the note was left out; @param place the displacement of the player there, 0 for in place */
  add(parent: number, note: number, onset: number, place: number): number;
  parent(node: number): number;
  note(node: number): number;
  onset(node: number): number;
  place(node: number): number;
}

const COLUMNS = 4;

export function createTree(): Tree {
  let data = new Int32Array(COLUMNS * 512);
  let count = 0;
  return {
    add(parent, note, onset, place) {
      const at = COLUMNS * count;
      if (at + COLUMNS > data.length) {
        const larger = new Int32Array(data.length * 2);
        larger.set(data);
        data = larger;
      }
      data[at] = parent;
      data[at + 1] = note;
      data[at + 2] = onset;
      data[at + 3] = place;
      return count++;
    },
    parent: (node) => data[COLUMNS * node]!,
    note: (node) => data[COLUMNS * node + 1]!,
    onset: (node) => data[COLUMNS * node + 2]!,
    place: (node) => data[COLUMNS * node + 3]!,
  };
}
