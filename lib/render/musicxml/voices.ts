import { add, compare, type Fraction, fraction, fractionText, subtract } from "../../base/index.js";
import type { Note } from "../../pattern/index.js";
import type { Stretch } from "./noteSymbols.js";
import type { PageBar, PageStaff } from "./page.js";

/** Notes that start and end together. */
export interface Chord {
  readonly from: Fraction;
  readonly to: Fraction;
  readonly notes: readonly Note[];
  /** Whether a slur begins or ends with it. */
  readonly slur?: "begins" | "ends" | undefined;
}

/** A chord, or the part of it inside a bar. */
export interface Sounding {
  readonly chord: Chord;
  readonly startsHere: boolean;
  readonly endsHere: boolean;
}

/** Distributes the notes of a staff over voices; the chords of a voice do not overlap. Percussion has one voice, where simultaneous strokes are one chord. */
export function voicesOf(
  { notes, kind, brackets }: PageStaff,
  bars: readonly PageBar[],
): readonly (readonly Chord[])[] {
  const edges = brackets.map(({ from }) => from);
  if (kind === "percussion")
    return [
      strokes(
        chordsOf(notes, ({ position }) => fractionText(position)),
        bars,
        edges,
      ),
    ];
  const voices: Chord[][] = [];
  for (const chord of chordsOf(notes, ({ position, length }) => `${fractionText(position)} ${fractionText(length)}`)) {
    const free = voices.find((voice) => compare(voice.at(-1)!.to, chord.from) <= 0);
    if (free) free.push(chord);
    else voices.push([chord]);
  }
  return voices.length === 0 ? [[]] : voices.map(withSlurs);
}

/** The chords of a voice with the ends of its slurs: over chords that follow on one another, each slurred to the next. */
function withSlurs(chords: readonly Chord[]): readonly Chord[] {
  const goesOn = chords.map(({ notes, to }, i) => {
    const next = chords[i + 1];
    return next !== undefined && compare(next.from, to) === 0 && notes.some(({ slurred }) => slurred);
  });
  return chords.map((chord, i) => {
    const came = i > 0 && goesOn[i - 1]!;
    if (came === goesOn[i]) return chord;
    return { ...chord, slur: came ? "ends" : "begins" };
  });
}

/**
 * The chords and rests of a voice in each bar, from its start to its end. Positions from the start of the bar.
 * Bars are in order and without gaps.
 */
export function stretchesByBar(
  bars: readonly PageBar[],
  voice: readonly Chord[],
): readonly (readonly Stretch<Sounding>[])[] {
  let first = 0;
  return bars.map((bar) => {
    while (first < voice.length && compare(voice[first]!.to, bar.position) <= 0) first++;
    const end = add(bar.position, bar.length);
    const stretches: Stretch<Sounding>[] = [];
    let at = bar.position;
    const push = (to: Fraction, content?: Sounding): void => {
      const place = { from: subtract(at, bar.position), to: subtract(to, bar.position) };
      if (compare(at, to) < 0) stretches.push(content === undefined ? place : { ...place, content });
      at = to;
    };
    for (let i = first; i < voice.length && compare(voice[i]!.from, end) < 0; i++) {
      const chord = voice[i]!;
      if (compare(chord.from, at) > 0) push(chord.from);
      const startsHere = compare(chord.from, bar.position) >= 0;
      const endsHere = compare(chord.to, end) <= 0;
      push(endsHere ? chord.to : end, { chord, startsHere, endsHere });
    }
    push(end);
    return stretches;
  });
}

function chordsOf(notes: readonly Note[], together: (note: Note) => string): readonly Chord[] {
  const chords = new Map<string, { from: Fraction; to: Fraction; notes: Note[] }>();
  for (const note of notes) {
    const key = together(note);
    const same = chords.get(key);
    if (same) same.notes.push(note);
    else chords.set(key, { from: note.position, to: add(note.position, note.length), notes: [note] });
  }
  return [...chords.values()];
}

/** Strokes last up to the next stroke or the end of their beat, since notation does not show how long a drum rings. None crosses an edge of `edges`. */
function strokes(chords: readonly Chord[], bars: readonly PageBar[], edges: readonly Fraction[]): readonly Chord[] {
  let bar = 0;
  return chords.map((chord, i) => {
    while (bar + 1 < bars.length && compare(bars[bar + 1]!.position, chord.from) <= 0) bar++;
    const ends = [beatEnd(chord.from, bars[bar]!), ...edges.filter((edge) => compare(edge, chord.from) > 0)];
    const next = chords[i + 1]?.from;
    if (next !== undefined) ends.push(next);
    return { ...chord, to: ends.reduce((a, b) => (compare(a, b) <= 0 ? a : b)) };
  });
}

function beatEnd(position: Fraction, bar: PageBar): Fraction {
  const { groups, lower } = bar.meter;
  const steps = bar.meter.kind === "simple" ? new Array<number>(groups[0]!).fill(1) : groups;
  // A pick-up is the end of a bar; beats are counted from the start of that whole bar.
  const full = fraction(
    groups.reduce((a, b) => a + b, 0),
    lower,
  );
  const end = add(bar.position, bar.length);
  let edge = bar.isPickup ? subtract(end, full) : bar.position;
  for (const step of steps) {
    edge = add(edge, fraction(step, lower));
    if (compare(edge, position) > 0) return compare(edge, end) < 0 ? edge : end;
  }
  return end;
}
