/** A source of chance that repeats itself: xorshift32 (Marsaglia, "Xorshift RNGs", Journal of Statistical Software 8(14), 2003). */
export interface Chance {
  /** A whole number from 0 to `below` - 1. */
  below(below: number): number;
}

export function chance(seed: number): Chance {
  let state = seed | 0 || 1;
  return {
    below: (below) => {
      state ^= state << 13;
      state ^= state >>> 17;
      state ^= state << 5;
      return (state >>> 0) % below;
    },
  };
}

/** What mutations are made of, beside chance. */
export interface Material {
  /** Good inputs; pieces of one are put into another. */
  readonly seeds: readonly Uint8Array[];
  /** Pieces that mean something to the reader. */
  readonly pieces: readonly Uint8Array[];
}

/** Bytes at which readers of numbers break most often: ends of ranges of 7, 8, 15, 16, 31 and 32 bits. Our choice. */
const EDGES: readonly (readonly number[])[] = [
  [0],
  [0x7f],
  [0x80],
  [0xff],
  [0x7f, 0xff],
  [0x80, 0],
  [0xff, 0xff],
  [0x7f, 0xff, 0xff, 0xff],
  [0x80, 0, 0, 0],
  [0xff, 0xff, 0xff, 0xff],
];

/** A good input with one to four changes: bytes overwritten, taken out, put in, doubled, cut off, swapped for a piece. Most changes are where most harm is done, at the head. */
export function mutated(from: Uint8Array, { seeds, pieces }: Material, luck: Chance): Uint8Array {
  let bytes = from;
  for (let changes = 1 + luck.below(4); changes > 0; changes--) {
    const reach = luck.below(3) === 0 ? Math.min(bytes.length, 64) : bytes.length;
    const at = luck.below(reach + 1);
    const end = Math.min(bytes.length, at + 1 + luck.below(luck.below(4) === 0 ? 400 : 8));
    bytes = join(bytes.subarray(0, at), put(bytes.subarray(at, end), { seeds, pieces }, luck), bytes.subarray(end));
  }
  return bytes;
}

/** What stands in the place of some bytes after a change. */
function put(old: Uint8Array, { seeds, pieces }: Material, luck: Chance): Uint8Array {
  switch (luck.below(8)) {
    case 0:
      return new Uint8Array();
    case 1:
      return Uint8Array.from(old, () => luck.below(256));
    case 2:
      return Uint8Array.from(old, (byte) => byte ^ (1 << luck.below(8)));
    case 3:
      return join(...Array<Uint8Array>(2 + luck.below(luck.below(8) === 0 ? 200 : 3)).fill(old));
    case 4:
      return Uint8Array.from(EDGES[luck.below(EDGES.length)]!);
    case 5: {
      const seed = seeds[luck.below(seeds.length)]!;
      const start = luck.below(seed.length);
      return seed.slice(start, start + luck.below(300));
    }
    default:
      return pieces.length === 0
        ? old
        : join(pieces[luck.below(pieces.length)]!, luck.below(2) === 0 ? old : new Uint8Array());
  }
}

function join(...parts: readonly Uint8Array[]): Uint8Array {
  const joined = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    joined.set(part, at);
    at += part.length;
  }
  return joined;
}
