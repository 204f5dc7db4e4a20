import { compare, type Fraction } from "../../base/index.js";
import { textElement, type Xml } from "../../formats/musicxml/index.js";
import type { Note, Pitch } from "../../pattern/index.js";
import type { NoteSymbol } from "./noteSymbols.js";
import type { StaffTransposition } from "./staffTransposition.js";
import type { Sounding } from "./voices.js";

/** What is printed before a note head. */
export interface Accidental {
  /** Semitones above the natural note; 0 is a natural sign, -1 a flat. */
  readonly alter: number;
  /** A courtesy accidental: it repeats what holds without it. */
  readonly isCourtesy: boolean;
}

/** The accidentals of each note symbol by its notes; a note without an entry has none. */
export type Accidentals = ReadonlyMap<NoteSymbol<Sounding>, ReadonlyMap<Note, Accidental>>;

type Line = `${Pitch["letter"]}${number}`;

interface Head {
  readonly symbol: NoteSymbol<Sounding>;
  readonly note: Note;
  readonly pitch: Pitch;
  readonly line: Line;
}

/** The accidentals in force in a bar, and the notes seen in it so far. */
interface BarState {
  /** The alteration in force on a line; `undefined` after simultaneous notes that differ. A line without an entry follows the key signature. */
  readonly holds: Map<Line, number | undefined>;
  /** Lines that have an accidental in this bar. */
  readonly marked: Set<Line>;
  /** Alterations of the last note on each line, and of the last note of each letter in any octave. Several where notes begin together. */
  readonly lastOnLine: Map<string, ReadonlySet<number>>;
  readonly lastOfLetter: Map<string, ReadonlySet<number>>;
}

/**
 * The accidentals of a staff over all of its voices, each `voices[voice][bar]`. Common practice, no single source:
 *
 * 1. An accidental holds on its line or space to the end of the bar. Before it the key signature holds. A note that differs from what holds
 *    gets an accidental.
 * 2. The second note of a tie gets no accidental, also after a bar line. Its alteration does not hold for the later notes of that bar.
 * 3. Notes that begin together on one line and differ get an accidental each. The next note on that line gets one too.
 * 4. A courtesy accidental is written at most once on a line in a bar: where the last note of the same letter had another alteration, in any
 *    octave of this bar or, without such a note in this bar, on the same line in the bar before.
 */
export function accidentalsOf(
  voices: readonly (readonly (readonly NoteSymbol<Sounding>[])[])[],
  transposition: StaffTransposition,
): Accidentals {
  const found = new Map<NoteSymbol<Sounding>, Map<Note, Accidental>>();
  let before: BarState["lastOnLine"] = new Map();
  for (let bar = 0; bar < (voices[0]?.length ?? 0); bar++) {
    const state: BarState = { holds: new Map(), marked: new Set(), lastOnLine: new Map(), lastOfLetter: new Map() };
    const symbols = voices.flatMap((bars) => bars[bar]!);
    for (const { held, struck } of together(symbols, transposition)) {
      remember(state, held);
      for (const head of struck) {
        const sign = signOf(head, { state, struck, before, fifths: transposition.fifths });
        if (sign === undefined) continue;
        state.marked.add(head.line);
        found.set(head.symbol, (found.get(head.symbol) ?? new Map<Note, Accidental>()).set(head.note, sign));
        state.holds.set(head.line, head.pitch.alter);
      }
      for (const head of struck) if (clashes(head, struck)) state.holds.set(head.line, undefined);
      remember(state, struck);
    }
    before = state.lastOnLine;
  }
  return found;
}

/** The `accidental` element of MusicXML 4.0. A courtesy accidental is in parentheses: our choice, so that readers see that it changes nothing. */
export function accidentalElement({ alter, isCourtesy }: Accidental): Xml {
  const courtesy = isCourtesy ? { cautionary: "yes", parentheses: "yes" } : {};
  return textElement("accidental", NAMES[alter + 2]!, courtesy);
}

/** From two flats to two sharps; a written pitch has no more. */
const NAMES = ["flat-flat", "flat", "natural", "sharp", "double-sharp"] as const;

interface Surroundings {
  readonly state: BarState;
  readonly struck: readonly Head[];
  readonly before: BarState["lastOnLine"];
  readonly fifths: number;
}

function signOf(head: Head, { state, struck, before, fifths }: Surroundings): Accidental | undefined {
  const { pitch, line } = head;
  const { alter, letter } = pitch;
  const holding = state.holds.has(line) ? state.holds.get(line) : inSignature(letter, fifths);
  if (holding !== alter || clashes(head, struck)) return { alter, isCourtesy: false };
  if (state.marked.has(line)) return undefined;
  const beside = struck.filter((other) => other.pitch.letter === letter).map((other) => other.pitch.alter);
  const last = state.lastOfLetter.get(letter) ?? before.get(line) ?? [];
  return [...beside, ...last].some((other) => other !== alter) ? { alter, isCourtesy: true } : undefined;
}

/** Whether a note with another alteration begins at the same time on the same line. */
function clashes(head: Head, struck: readonly Head[]): boolean {
  return struck.some(({ line, pitch }) => line === head.line && pitch.alter !== head.pitch.alter);
}

function remember({ lastOnLine, lastOfLetter }: BarState, heads: readonly Head[]): void {
  for (const { line, pitch } of heads) {
    const together = heads.filter((other) => other.pitch.letter === pitch.letter);
    lastOfLetter.set(pitch.letter, new Set(together.map((other) => other.pitch.alter)));
    const here = together.filter((other) => other.line === line);
    lastOnLine.set(line, new Set(here.map((other) => other.pitch.alter)));
  }
}

/** The notes of a bar by onset, in order: notes tied from the bar before (`held`) and new notes (`struck`). Later symbols of a tied note are left out. */
function together(
  symbols: readonly NoteSymbol<Sounding>[],
  transposition: StaffTransposition,
): readonly { readonly held: readonly Head[]; readonly struck: readonly Head[] }[] {
  const moments: { from: Fraction; held: Head[]; struck: Head[] }[] = [];
  for (const each of symbols.filter(({ isFirst }) => isFirst).sort((a, b) => compare(a.from, b.from))) {
    const last = moments.at(-1);
    const moment =
      last !== undefined && compare(last.from, each.from) === 0 ? last : { from: each.from, held: [], struck: [] };
    if (moment !== last) moments.push(moment);
    (each.content?.startsHere ? moment.struck : moment.held).push(...headsOf(each, transposition));
  }
  return moments;
}

/** A note without a pitch, and a note with a percussion voice, have no line. */
function headsOf(symbol: NoteSymbol<Sounding>, transposition: StaffTransposition): readonly Head[] {
  return (symbol.content?.chord.notes ?? []).flatMap((note): readonly Head[] => {
    if (note.pitch === undefined || note.voice !== undefined) return [];
    const pitch = transposition.pitch(note.pitch);
    return [{ symbol, note, pitch, line: `${pitch.letter}${pitch.octave}` }];
  });
}

/** Alteration by a key signature. Sharps come in the order F C G D A E B, flats in the reverse order. */
function inSignature(letter: Pitch["letter"], fifths: number): number {
  const place = "FCGDAEB".indexOf(letter);
  if (fifths > 0) return place < fifths ? 1 : 0;
  return 6 - place < -fifths ? -1 : 0;
}
