import fc from "fast-check";
import { add, type Fraction, fraction, multiply, subtract, toNumber, ZERO } from "../../lib/base/index.js";
import { type Bar, type Key, type Note, type Pattern, parseKey, parsePitch } from "../../lib/pattern/index.js";
import type { Page, PageBar, PageStaff } from "../../lib/render/index.js";
import { barLength, type Meter, parseMeter } from "../../lib/time/index.js";
import { must } from "../time/shorthand.js";

/** Ways to fill a stretch: plain values, and tuplets of three, five and seven, whole or in larger pieces. In whole notes. */
const CHUNKS: readonly (readonly (readonly [number, number])[])[] = [
  [[1, 4]],
  [[1, 8]],
  [[1, 16]],
  [[1, 2]],
  [[3, 8]],
  [[3, 16]],
  [[1, 32]],
  [
    [1, 12],
    [1, 12],
    [1, 12],
  ],
  [
    [1, 6],
    [1, 12],
  ],
  [
    [1, 12],
    [1, 6],
  ],
  [
    [1, 6],
    [1, 6],
    [1, 6],
  ],
  [
    [1, 24],
    [1, 24],
    [1, 24],
  ],
  [
    [1, 20],
    [1, 20],
    [1, 20],
    [1, 20],
    [1, 20],
  ],
  [
    [1, 10],
    [1, 20],
    [1, 10],
  ],
  [
    [1, 28],
    [1, 28],
    [1, 28],
    [1, 28],
    [1, 28],
    [1, 28],
    [1, 28],
  ],
];
const METERS = ["4/4", "3/4", "6/8", "2+2+3/8", "5/4", "12/8", "2/2", "3/8", "2/4", "7/4"];
const PITCHES = ["C4", "D4", "Eb4", "F#4", "G4", "A4", "Bb4", "C#5", "D5"].map((text) => must(parsePitch(text)));

/** A riff of a few bars of one meter, with its bars and its notes. */
export interface Riff {
  readonly meter: Meter;
  readonly bars: readonly PageBar[];
  readonly notes: readonly Note[];
}

/** Random riffs: each bar filled with chunks, tuplets on beats; some notes are rests, some are tied on, also across bar lines. */
export const riffs: fc.Arbitrary<Riff> = fc
  .record({
    meter: fc.constantFrom(...METERS),
    count: fc.integer({ min: 1, max: 3 }),
    choices: fc.array(fc.nat(), { minLength: 60, maxLength: 60 }),
  })
  .map(({ meter: text, count, choices }) => {
    const meter = must(parseMeter(text));
    const length = barLength(meter);
    let next = 0;
    const choose = (most: number): number => choices[next++ % choices.length]! % most;
    const bars = Array.from({ length: count }, (_, i): PageBar => {
      return { position: multiply(length, fraction(i)), length, meter, number: String(i + 1), isPickup: false };
    });
    const pieces = bars.flatMap((bar) => filled(bar, choose));
    const notes: Note[] = [];
    let tied = false;
    for (const { position, length } of pieces) {
      const kind = choose(6);
      const last = notes.at(-1);
      if (tied && last) notes[notes.length - 1] = { ...last, length: add(last.length, length) };
      else if (kind > 0) notes.push({ position, length, pitch: PITCHES[choose(PITCHES.length)]!, accent: kind === 1 });
      const sounds: boolean = tied || kind > 0;
      tied = sounds && choose(5) === 0;
    }
    return { meter, bars, notes };
  })
  .filter(({ notes }) => notes.length > 0);

function filled(bar: PageBar, choose: (most: number) => number): readonly { position: Fraction; length: Fraction }[] {
  const pieces: { position: Fraction; length: Fraction }[] = [];
  let at = ZERO;
  while (toNumber(at) < toNumber(bar.length)) {
    const room = subtract(bar.length, at);
    const fitting = CHUNKS.filter((chunk) => {
      const total = chunk.reduce((sum, [n, d]) => add(sum, fraction(n, d)), ZERO);
      const isTuplet = chunk.length > 1;
      return toNumber(total) <= toNumber(room) && (!isTuplet || isWithinBeats(at, total, bar.meter));
    });
    const chunk = fitting[choose(fitting.length)];
    if (chunk === undefined) {
      pieces.push({ position: add(bar.position, at), length: room });
      break;
    }
    for (const [n, d] of chunk) {
      pieces.push({ position: add(bar.position, at), length: fraction(n, d) });
      at = add(at, fraction(n, d));
    }
  }
  return pieces;
}

/** Whether a tuplet begins on an eighth, and where beats are grouped, ends in the group it begins in. */
function isWithinBeats(from: Fraction, length: Fraction, { kind, groups, lower }: Meter): boolean {
  if (8 % from.d !== 0) return false;
  if (kind === "simple") return true;
  let edge = ZERO;
  for (const size of groups) {
    const to = add(edge, fraction(size, lower));
    if (toNumber(from) < toNumber(to)) return toNumber(add(from, length)) <= toNumber(to);
    edge = to;
  }
  return false;
}

const C_MAJOR: Key = must(parseKey("C major"));

/** A riff as a page of one staff. */
export function pageOf({ bars, notes }: Riff, staff: Partial<PageStaff> = {}, key: Key = C_MAJOR): Page {
  return {
    title: "Riff",
    key,
    bars,
    chords: [],
    staves: [{ name: "lead", kind: "pitched", notes, brackets: [], open: [], ...staff }],
  };
}

/** A riff as a pattern of one part. */
export function patternOf({ bars, notes, meter }: Riff): Pattern {
  const own = bars.map((bar, i): Bar => ({ number: i + 1, position: bar.position, meter }));
  return {
    name: "riff",
    bars: own,
    length: multiply(barLength(meter), fraction(bars.length)),
    pickup: ZERO,
    key: C_MAJOR,
    chords: [],
    parts: [{ name: "lead", kind: "pitched", variants: { "": notes } }],
  };
}
