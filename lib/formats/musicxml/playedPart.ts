import { add, compare, type Fraction, fractionText, ZERO } from "../../base/index.js";
import { problem } from "../codes.js";
import { say } from "../say.js";
import type { Measure, MeasureNote } from "./measure.js";
import type { MusicXmlAdvice, MusicXmlBar, MusicXmlNote, MusicXmlPart, StaffPitch } from "./musicXmlFile.js";
import { playOrder } from "./playOrder.js";

/** Most bars played: our choice, longer than any practice part; it bounds nested repeats. */
const MOST_BARS = 10_000;

/** Unfolds the written bars of a part to the bars played: repeats written out, ties joined. `undefined` when it has more than `most` notes. */
export function playedPart(
  { id, name, measures }: { readonly id: string; readonly name: string; readonly measures: readonly Measure[] },
  most: number,
): MusicXmlPart | undefined {
  const bars: MusicXmlBar[] = [];
  const advice: MusicXmlAdvice[] = [];
  const tied: { note: MeasureNote; position: Fraction; bar: number }[] = [];
  let position = ZERO;
  for (const index of playOrder(measures, MOST_BARS)) {
    const measure = measures[index]!;
    const bar = bars.length;
    const { number, length, implicit, meter } = measure;
    bars.push({ number, position, length, implicit, ...(meter ? { meter } : {}) });
    for (const found of measure.problems) advice.push({ bar, problem: found });
    const voices = new Set(measure.notes.map((note) => note.voice));
    if (voices.size > 1) {
      const message = say("formats-problem.musicxml-several-voices", { count: voices.size, bar: number, part: name });
      advice.push({ bar, problem: problem("MUSICXML_SEVERAL_VOICES", message) });
    }
    for (const note of measure.notes)
      tied.push({ note: movedBy(note, position), position: add(position, note.offset), bar });
    if (tied.length > most) return undefined;
    position = add(position, measure.length);
  }
  return { id, name, bars, advice, notes: joined(tied, { bars, name, advice }) };
}

/** The tuplets of a note of a bar that begins at a position. */
function movedBy(note: MeasureNote, by: Fraction): MeasureNote {
  if (note.tuplet === undefined) return note;
  const tuplet = { from: add(by, note.tuplet.from), to: add(by, note.tuplet.to) };
  return { ...note, tuplet, endsIn: tuplet };
}

/** Joins the second note of a tie to the first: the same key, beginning at the end of the first, whose name stays. */
function joined(
  tied: readonly { note: MeasureNote; position: Fraction; bar: number }[],
  { bars, name, advice }: { bars: readonly MusicXmlBar[]; name: string; advice: MusicXmlAdvice[] },
): MusicXmlNote[] {
  const notes: MusicXmlNote[] = [];
  const open = new Map<string, number>();
  for (const { note, position, bar } of tied) {
    const { offset: _, tieStarts, tieStops, length, ...rest } = note;
    const key = tieKey(note.written, position);
    const from = tieStops ? open.get(key) : undefined;
    const index = from ?? notes.length;
    if (from === undefined) notes.push({ ...rest, position, length, bar });
    else {
      open.delete(key);
      // A slur goes on from the end of the last note of a tie, where a fall stands too.
      const { slurred: _, endsIn: _before, ...first } = notes[from]!;
      const marks = {
        ...(rest.slurred ? { slurred: true as const } : {}),
        ...(rest.fall ? { fall: true as const } : {}),
        ...(rest.endsIn && { endsIn: rest.endsIn }),
      };
      notes[from] = { ...first, ...marks, length: add(first.length, length) };
    }
    if (tieStarts) open.set(tieKey(note.written, add(position, length)), index);
  }
  for (const index of open.values()) {
    const bar = notes[index]!.bar;
    const message = say("formats-problem.musicxml-tie-not-ended", { bar: bars[bar]!.number, part: name });
    advice.push({ bar, problem: problem("MUSICXML_TIE_NOT_ENDED", message) });
  }
  return notes.sort((a, b) => compare(a.position, b.position));
}

/** Semitones of the letters above C. */
const SEMITONES: Readonly<Record<StaffPitch["letter"], number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };

/** By the key of the piano and not by its name: E and the F flat that it is tied to are one note (MusicXML 4.0: a tie is of one sounding pitch). */
function tieKey(pitch: StaffPitch | undefined, position: Fraction): string {
  const key = pitch && SEMITONES[pitch.letter] + pitch.alter + 12 * pitch.octave;
  return `${key ?? "unpitched"} ${fractionText(position)}`;
}
