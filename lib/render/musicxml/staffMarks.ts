import { compare, type Fraction, toNumber } from "../../base/index.js";
import { element, emptyElement, textElement, type Xml } from "../../formats/musicxml/index.js";
import {
  type Loudness,
  type Note,
  type Pitch,
  pitchText,
  type Scale,
  scaleText,
  transposePitch,
} from "../../pattern/index.js";
import { ENGLISH, type FileWords } from "../fileWords.js";
import { velocityOf } from "../velocity.js";
import { harmony } from "./harmony.js";
import { noteTypeName, noteValue } from "./noteValues.js";
import type { Page, PageStaff } from "./page.js";
import type { StaffTransposition } from "./staffTransposition.js";

/** A mark over a staff at a position. `write` takes the divisions from the next note or rest in the file to the mark. */
export interface Mark {
  readonly position: Fraction;
  /** The mark is written after the note that ends there, not before the note that begins there. */
  readonly isEnd: boolean;
  write(offset: number): Xml;
}

/** All marks over a staff. The first staff also has the tempo, swing and rehearsal marks. */
export function marksOf(
  page: Page,
  staff: PageStaff,
  { transposition, isFirst }: { transposition: StaffTransposition; isFirst: boolean },
): readonly Mark[] {
  const marks: Mark[] = [];
  const { words: said = ENGLISH } = page;
  const here = (position: Fraction, types: readonly Xml[], sound: Xml = ""): void => {
    marks.push({ position, isEnd: false, write: (offset) => direction(types, { offset, sound }) });
  };
  if (isFirst) {
    const start = page.bars[0]!.position;
    const atTempo = (position: Fraction, tempo: NonNullable<Page["tempo"]>): void =>
      here(position, [metronome(tempo)], emptyElement("sound", { tempo: quarters(tempo) }));
    if (page.tempo) atTempo(start, page.tempo);
    for (const { position, tempo } of page.bars)
      if (page.tempo && tempo !== undefined) atTempo(position, { ...page.tempo, perMinute: tempo });
    if (page.swing) here(start, swingMarks(page.swing, said), swingSound(page.swing));
    if (page.tuning !== undefined) here(start, [words(said.say("sound.tuning", { hertz: String(page.tuning) }))]);
    for (const bar of page.bars) if (bar.mark !== undefined) here(bar.position, [textElement("rehearsal", bar.mark)]);
  }
  for (const [i, { from, to, fromText, toText }] of staff.brackets.entries()) {
    const number = (i % 2) + 1;
    here(from, [words(fromText)]);
    here(from, [emptyElement("bracket", { type: "start", number, "line-end": "down", "line-type": "dashed" })]);
    const stop = emptyElement("bracket", { type: "stop", number, "line-end": "down", "line-type": "dashed" });
    marks.push({ position: to, isEnd: true, write: (offset) => direction([stop], { offset, sound: "" }) });
    if (toText !== "") here(to, [words(toText)]);
  }
  for (const { from, scale } of staff.open) here(from, [words(scaleWords(transposition.scale(scale)))]);
  for (const { position, loudness } of loudnessChanges(staff.notes)) {
    marks.push({ position, isEnd: false, write: (offset) => dynamics(loudness, offset) });
  }
  // In a score the chords are over its first pitched staff only.
  if (staff === page.staves.find(({ kind }) => kind === "pitched")) {
    for (const { position, text } of page.chords) {
      marks.push({ position, isEnd: false, write: (offset) => harmony(transposition.chord(text), offset) });
    }
  }
  return marks.sort((a, b) => compare(a.position, b.position) || Number(b.isEnd) - Number(a.isEnd));
}

/** "D dorian: D E F G A B C". */
export function scaleWords(scale: Scale): string {
  return `${scaleText(scale)}: ${scalePitches(scale, 4).map(noteName).join(" ")}`;
}

/** The notes of a scale upwards from its tonic in an octave, once through. */
export function scalePitches(scale: Scale, octave: number): readonly Pitch[] {
  const tonic: Pitch = { ...scale.tonic, octave };
  return scale.steps.map((step, i) => transposePitch(tonic, { diatonic: degree(scale, i), chromatic: step }));
}

/** The diatonic degree of a note of a scale. A scale of seven notes has one letter each; others use the letters of the major or minor scale, or the nearest. */
function degree(scale: Scale, index: number): number {
  if (scale.steps.length === 7) return index;
  const step = scale.steps[index]!;
  const major = [0, 2, 4, 5, 7, 9, 11].indexOf(step);
  const minor = [0, 2, 3, 5, 7, 8, 10].indexOf(step);
  return major >= 0 ? major : minor >= 0 ? minor : Math.round((step * 7) / 12);
}

/** A pitch without its octave. */
function noteName(pitch: Pitch): string {
  return pitchText(pitch).replace(/-?\d+$/, "");
}

/**
 * Where the loudness changes, in a staff that has any marked; none in others. What is not marked there is mf, which is said too, as a riff
 * that is repeated begins again without the mark it ended with.
 */
function loudnessChanges(
  notes: readonly Note[],
): readonly { readonly position: Fraction; readonly loudness: Loudness }[] {
  if (notes.every(({ loudness }) => loudness === undefined)) return [];
  let inForce: Loudness | undefined;
  return [...notes]
    .sort((a, b) => compare(a.position, b.position))
    .flatMap(({ position, loudness = "mf" }) => {
      const isNew = loudness !== inForce;
      inForce = loudness;
      return isNew ? [{ position, loudness }] : [];
    });
}

/** MusicXML 4.0 states the loudness of sound in per cent of a MIDI velocity of 90. */
function dynamics(loudness: Loudness, offset: number): Xml {
  const sound = emptyElement("sound", { dynamics: Math.round((1e4 * velocityOf({ loudness })) / 90) / 100 });
  return direction([element("dynamics", {}, [emptyElement(loudness)])], { offset, sound, placement: "below" });
}

function direction(
  types: readonly Xml[],
  { offset, sound, placement = "above" }: { offset: number; sound: Xml; placement?: "above" | "below" },
): Xml {
  const later = offset === 0 ? "" : textElement("offset", offset);
  const inside = types.map((type) => element("direction-type", {}, [type]));
  return element("direction", { placement }, [...inside, later, sound]);
}

function words(text: string): Xml {
  return textElement("words", text);
}

function metronome({ perMinute, beat }: NonNullable<Page["tempo"]>): Xml {
  const value = noteValue(beat) ?? { value: 4, dots: 0 };
  return element("metronome", {}, [
    textElement("beat-unit", noteTypeName(value)),
    value.dots === 1 ? emptyElement("beat-unit-dot") : "",
    textElement("per-minute", perMinute),
  ]);
}

/** Tempo in quarter notes per minute, for any beat unit (MusicXML 4.0, `sound`). */
function quarters({ perMinute, beat }: NonNullable<Page["tempo"]>): number {
  return Math.round(perMinute * 4 * toNumber(beat) * 1e6) / 1e6;
}

/** Swing as engravers write it: the word, and two equal notes = a triplet, or a dotted note and a short one; another ratio in words. */
function swingMarks(swing: NonNullable<Page["swing"]>, said: FileWords): readonly Xml[] {
  const even = noteValue(swing.subdivision);
  const long = swing.second === 1 ? { 2: "triplet", 3: "dotted" }[swing.first] : undefined;
  if (even === undefined || even.dots > 0 || long === undefined) return [words(swingWords(swing, said))];
  const type = noteTypeName(even);
  const note = (name: string, inside: readonly Xml[]): Xml =>
    element("metronome-note", {}, [textElement("metronome-type", name), ...inside]);
  const beam = (place: "begin" | "end"): Xml => textElement("metronome-beam", place, { number: 1 });
  const triplet = (place: "start" | "stop"): Xml =>
    element("metronome-tuplet", { type: place, bracket: "yes", "show-number": "actual" }, [
      textElement("actual-notes", 3),
      textElement("normal-notes", 2),
      textElement("normal-type", type),
    ]);
  const right =
    long === "triplet"
      ? [note(noteTypeName({ value: even.value / 2, dots: 0 }), [triplet("start")]), note(type, [triplet("stop")])]
      : [
          note(type, [emptyElement("metronome-dot"), beam("begin")]),
          note(noteTypeName({ value: even.value * 2, dots: 0 }), [beam("end")]),
        ];
  const equal = element("metronome", {}, [
    note(type, [beam("begin")]),
    note(type, [beam("end")]),
    textElement("metronome-relation", "equals"),
    ...right,
  ]);
  return [words(said.say("sound.swung")), equal];
}

function swingWords({ first, second, subdivision }: NonNullable<Page["swing"]>, { say }: FileWords): string {
  const ratio = `${first}:${second}`;
  const notes = subdivision.n === 1 ? SWUNG.get(subdivision.d) : undefined;
  return notes === undefined ? say("sound.swing", { ratio }) : say("sound.swing-of", { ratio, notes });
}

/** Note values by the parts of a whole note they are, as messages name them. */
const SWUNG: ReadonlyMap<number, "half" | "quarter" | "eighth" | "sixteenth" | "thirty-second"> = new Map([
  [2, "half"],
  [4, "quarter"],
  [8, "eighth"],
  [16, "sixteenth"],
  [32, "thirty-second"],
]);

/** MusicXML 4.0 has swing for eighths and sixteenths only; another swing is in the words alone. */
function swingSound({ first, second, subdivision }: NonNullable<Page["swing"]>): Xml {
  const type = { 8: "eighth", 16: "16th" }[subdivision.d];
  if (type === undefined) return "";
  const swing = [textElement("first", first), textElement("second", second), textElement("swing-type", type)];
  return element("sound", {}, [element("swing", {}, swing)]);
}
