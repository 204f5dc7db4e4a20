import { compare, type Fraction } from "../../base/index.js";
import { textElement, type Xml } from "../../formats/musicxml/index.js";
import type { Note, Pitch } from "../../pattern/index.js";
import type { Drawn } from "./drawn.js";
import type { Reading } from "./reading.js";
import type { Sounding } from "./voices.js";

/** What is printed before a note head. */
export interface Accidental {
  /** Semitones by which it raises the natural note; 0 is a natural. */
  readonly alter: number;
  /** Whether it only reminds of what holds without it. */
  readonly isCourtesy: boolean;
}

/** For each drawn chord the accidentals of its notes; a note that is not there has none. */
export type Accidentals = ReadonlyMap<Drawn<Sounding>, ReadonlyMap<Note, Accidental>>;

type Line = `${Pitch["letter"]}${number}`;

interface Head {
  readonly drawn: Drawn<Sounding>;
  readonly note: Note;
  readonly pitch: Pitch;
  readonly line: Line;
}

/** What a reader keeps in mind within a bar. */
interface Mind {
  /** What holds on a line; `undefined` after notes together that differ. Where nothing is kept the signature holds. */
  readonly holds: Map<Line, number | undefined>;
  /** Lines on which an accidental stands in this bar. */
  readonly marked: Set<Line>;
  /** Alterations of the last note on each line, and of the last of each letter in any octave; several where notes begin together. */
  readonly lastOnLine: Map<string, ReadonlySet<number>>;
  readonly lastOfLetter: Map<string, ReadonlySet<number>>;
}

/**
 * The accidentals of a staff over all of its voices, each `voices[voice][bar]`. Common practice, no single source:
 *
 * 1. An accidental holds on its line (or in its space) up to the bar line; before it the signature holds. A note that differs from what holds has one.
 * 2. A note tied on has none, also behind a bar line, and what it sounds does not hold for the notes after it there.
 * 3. Notes that begin together on one line and differ have one each; so has the next note there.
 * 4. A courtesy accidental, once on a line in a bar: where the last note of the same letter was another, in any octave of this bar or, when
 *    there was none, on the same line in the bar before.
 */
export function accidentalsOf(
  voices: readonly (readonly (readonly Drawn<Sounding>[])[])[],
  reading: Reading,
): Accidentals {
  const found = new Map<Drawn<Sounding>, Map<Note, Accidental>>();
  let before: Mind["lastOnLine"] = new Map();
  for (let bar = 0; bar < (voices[0]?.length ?? 0); bar++) {
    const mind: Mind = { holds: new Map(), marked: new Set(), lastOnLine: new Map(), lastOfLetter: new Map() };
    const drawn = voices.flatMap((bars) => bars[bar]!);
    for (const { held, struck } of together(drawn, reading)) {
      see(mind, held);
      for (const head of struck) {
        const sign = signOf(head, { mind, struck, before, fifths: reading.fifths });
        if (sign === undefined) continue;
        mind.marked.add(head.line);
        found.set(head.drawn, (found.get(head.drawn) ?? new Map<Note, Accidental>()).set(head.note, sign));
        mind.holds.set(head.line, head.pitch.alter);
      }
      for (const head of struck) if (clashes(head, struck)) mind.holds.set(head.line, undefined);
      see(mind, struck);
    }
    before = mind.lastOnLine;
  }
  return found;
}

/** As MusicXML 4.0 writes it (`accidental`). A courtesy accidental stands in parentheses: our choice, so that it is seen to change nothing. */
export function accidentalElement({ alter, isCourtesy }: Accidental): Xml {
  const courtesy = isCourtesy ? { cautionary: "yes", parentheses: "yes" } : {};
  return textElement("accidental", NAMES[alter + 2]!, courtesy);
}

/** From two flats to two sharps; a written pitch never has more. */
const NAMES = ["flat-flat", "flat", "natural", "sharp", "double-sharp"] as const;

interface Surroundings {
  readonly mind: Mind;
  readonly struck: readonly Head[];
  readonly before: Mind["lastOnLine"];
  readonly fifths: number;
}

function signOf(head: Head, { mind, struck, before, fifths }: Surroundings): Accidental | undefined {
  const { pitch, line } = head;
  const { alter, letter } = pitch;
  const holding = mind.holds.has(line) ? mind.holds.get(line) : inSignature(letter, fifths);
  if (holding !== alter || clashes(head, struck)) return { alter, isCourtesy: false };
  if (mind.marked.has(line)) return undefined;
  const beside = struck.filter((other) => other.pitch.letter === letter).map((other) => other.pitch.alter);
  const last = mind.lastOfLetter.get(letter) ?? before.get(line) ?? [];
  return [...beside, ...last].some((other) => other !== alter) ? { alter, isCourtesy: true } : undefined;
}

/** Whether a note on the same line begins with it and differs. */
function clashes(head: Head, struck: readonly Head[]): boolean {
  return struck.some(({ line, pitch }) => line === head.line && pitch.alter !== head.pitch.alter);
}

function see({ lastOnLine, lastOfLetter }: Mind, heads: readonly Head[]): void {
  for (const { line, pitch } of heads) {
    const together = heads.filter((other) => other.pitch.letter === pitch.letter);
    lastOfLetter.set(pitch.letter, new Set(together.map((other) => other.pitch.alter)));
    const here = together.filter((other) => other.line === line);
    lastOnLine.set(line, new Set(here.map((other) => other.pitch.alter)));
  }
}

/** The notes of a bar by where they begin, in order: those held over from the bar before, and those struck. Their heads tied on after that say nothing new. */
function together(
  drawn: readonly Drawn<Sounding>[],
  reading: Reading,
): readonly { readonly held: readonly Head[]; readonly struck: readonly Head[] }[] {
  const moments: { from: Fraction; held: Head[]; struck: Head[] }[] = [];
  for (const each of drawn.filter(({ isFirst }) => isFirst).sort((a, b) => compare(a.from, b.from))) {
    const last = moments.at(-1);
    const moment =
      last !== undefined && compare(last.from, each.from) === 0 ? last : { from: each.from, held: [], struck: [] };
    if (moment !== last) moments.push(moment);
    (each.content?.startsHere ? moment.struck : moment.held).push(...headsOf(each, reading));
  }
  return moments;
}

/** A stroke to improvise on, which has a voice of its own, stands on no line. */
function headsOf(drawn: Drawn<Sounding>, reading: Reading): readonly Head[] {
  return (drawn.content?.chord.notes ?? []).flatMap((note): readonly Head[] => {
    if (note.pitch === undefined || note.voice !== undefined) return [];
    const pitch = reading.pitch(note.pitch);
    return [{ drawn, note, pitch, line: `${pitch.letter}${pitch.octave}` }];
  });
}

/** Sharps come in the order F C G D A E B, flats from the other end. */
function inSignature(letter: Pitch["letter"], fifths: number): number {
  const place = "FCGDAEB".indexOf(letter);
  if (fifths > 0) return place < fifths ? 1 : 0;
  return 6 - place < -fifths ? -1 : 0;
}
