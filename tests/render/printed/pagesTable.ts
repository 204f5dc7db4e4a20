import { fifthsFor, keyOf, type Named, noteAt, pitchAt, placeOf, withFewSigns } from "./fifths.js";

/*
 * What a sheet has to show, worked out from the concert pitches of a riff with nothing of the project's own code: the written pitch of every
 * note for a player, and the accidentals after the rules that lib/render/musicxml/accidentals.ts states (common practice, no single source).
 */

/** A note that sounds; in whole notes from the downbeat of bar 1. */
export interface Sounded extends Named {
  readonly from: number;
  readonly to: number;
}

export interface Span {
  readonly from: number;
  readonly to: number;
}

/** Who reads: semitones from what is read to what sounds, and octaves by which the part is moved. */
export interface ReadBy {
  readonly semitones: number;
  readonly octave: number;
}

export interface Sheet {
  readonly fifths: number;
  /** For each bar the notes that begin in it, in order; of notes that begin together the lower line first. */
  readonly bars: readonly (readonly Shown[])[];
  /** A chord's root as the player reads it. */
  root(concert: Pick<Named, "letter" | "alter">): Pick<Named, "letter" | "alter">;
}

export interface Shown extends Sounded {
  readonly sign?: { readonly alter: number; readonly isInParentheses: boolean };
}

/** Two positions closer than this are the same; the shortest note drawn is a 256th, in tuplets of 15 at most. */
const NEAR = 1e-6;
const isAt = (a: number, b: number): boolean => Math.abs(a - b) < NEAR;

/** What is read: the most signs a transposed signature has before its neighbour is taken, and one at concert pitch. */
const MOST_SIGNS = { moved: 6, concert: 7 };

/** How a reader sees a concert signature and pitches. */
export function readAs(concertFifths: number, { semitones, octave }: ReadBy) {
  const up = 12 * octave - semitones;
  let by = fifthsFor(up);
  const most = by === 0 ? MOST_SIGNS.concert : MOST_SIGNS.moved;
  if (Math.abs(concertFifths + by) > most) by -= 12 * Math.sign(concertFifths + by);
  const fifths = concertFifths + by;
  const written = (concert: Named): Named => {
    let place = withFewSigns(placeOf(concert) + by);
    // Double signs that only the transposition makes are spelled by the key: from three fifths under its signature up.
    if (Math.abs(noteAt(place).alter) > 1 && Math.abs(concert.alter) < 2) {
      const lowest = fifths - 3;
      place = lowest + ((((place - lowest) % 12) + 12) % 12);
    }
    return pitchAt(place, keyOf(concert) + up);
  };
  const root = (concert: Pick<Named, "letter" | "alter">) => noteAt(withFewSigns(placeOf(concert) + by));
  return { fifths, written, root };
}

/**
 * A note so many fifths away on the line, in the octave that is nearest; of two as near, an augmented fourth goes up and a diminished fifth down.
 */
export function inAnotherKey<T extends Named>(note: T, fifths: number): T {
  const up = (((7 * fifths) % 12) + 12) % 12;
  const semitones = up > 6 || (up === 6 && fifths < 0) ? up - 12 : up;
  return { ...note, ...pitchAt(withFewSigns(placeOf(note) + fifths), keyOf(note) + semitones) };
}

export function sheetTable(
  notes: readonly Sounded[],
  { bars, concertFifths, reader }: { bars: readonly Span[]; concertFifths: number; reader: ReadBy },
): Sheet {
  const { fifths, written, root } = readAs(concertFifths, reader);
  const read = notes.map((note) => ({ ...written(note), from: note.from, to: note.to })).sort(byPlace);
  return { fifths, root, bars: bars.map((bar, i) => signed(read, { bar, before: bars[i - 1], fifths })) };
}

const STEPS = "CDEFGAB";
function byPlace(a: Sounded, b: Sounded): number {
  const line = ({ letter, octave }: Named): number => STEPS.indexOf(letter) + 7 * octave;
  return (isAt(a.from, b.from) ? 0 : a.from - b.from) || line(a) - line(b) || a.alter - b.alter;
}

function signed(
  notes: readonly Sounded[],
  { bar, before, fifths }: { bar: Span; before: Span | undefined; fifths: number },
): readonly Shown[] {
  const done: Shown[] = [];
  const own = notes.filter(({ from }) => isIn(from, bar));
  const isOnLine =
    ({ letter, octave }: Named) =>
    (other: Named): boolean =>
      other.letter === letter && other.octave === octave;
  for (const note of own) {
    const sameLine = isOnLine(note);
    const together = own.filter(({ from }) => isAt(from, note.from));
    const earlier = own.filter(({ from }) => from < note.from - NEAR);
    const clash = together.some((other) => sameLine(other) && other.alter !== note.alter);
    const held = altersAtLast(earlier.filter(sameLine));
    const marked = done.filter((other) => other.sign !== undefined && sameLine(other));
    const isPrintedAlready = marked.some(({ from }) => isAt(from, note.from));
    const holds = held.length === 0 ? [inSignature(note.letter, fifths)] : held;
    const isNeeded = clash || (!isPrintedAlready && (holds.length > 1 || holds[0] !== note.alter));
    const sameLetter = ({ letter }: Named): boolean => letter === note.letter;
    const inMind = [
      together.filter(sameLetter).map(({ alter }) => alter),
      lastSeen(notes, { in: bar, until: note.from }, sameLetter) ??
        (before && lastSeen(notes, { in: before, until: before.to }, sameLine)) ??
        [],
    ].flat();
    const reminds = marked.length === 0 && inMind.some((alter) => alter !== note.alter);
    const sign = { alter: note.alter, isInParentheses: !isNeeded };
    done.push(isNeeded || reminds ? { ...note, sign } : note);
  }
  return done;
}

/** The alterations of the last of some notes: several where they begin together and differ. */
function altersAtLast(some: readonly Sounded[]): readonly number[] {
  const last = Math.max(...some.map(({ from }) => from));
  return [...new Set(some.filter(({ from }) => isAt(from, last)).map(({ alter }) => alter))];
}

/** What a player has last seen of some notes in a bar: those held over are seen at its beginning, before those that begin there. */
function lastSeen(
  notes: readonly Sounded[],
  { in: bar, until }: { in: Span; until: number },
  which: (note: Named) => boolean,
): readonly number[] | undefined {
  const begun = notes.filter((note) => which(note) && isIn(note.from, bar) && note.from < until - NEAR);
  if (begun.length > 0) return altersAtLast(begun);
  const over = notes.filter((note) => which(note) && note.from < bar.from - NEAR && note.to > bar.from + NEAR);
  return over.length > 0 ? [...new Set(over.map(({ alter }) => alter))] : undefined;
}

function isIn(position: number, { from, to }: Span): boolean {
  return position > from - NEAR && position < to - NEAR;
}

/** Sharps are F C G D A E B, flats B E A D G C F: on the line of fifths, the seven notes from one under the major tonic. */
function inSignature(letter: string, fifths: number): number {
  for (let place = fifths - 1; place <= fifths + 5; place++)
    if (noteAt(place).letter === letter) return noteAt(place).alter;
  throw new RangeError(`no letter: ${letter}`);
}
