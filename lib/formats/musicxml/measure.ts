import { add, compare, type Fraction, multiply, type Problem, problemsOf, subtract, ZERO } from "../../base/index.js";
import { barLength, type Meter, parseDecimal } from "../../time/index.js";
import { formatCodes } from "../codes.js";
import { readAttributes, type StaffState } from "./attributes.js";
import type { MusicXmlNote, StaffPitch } from "./musicXmlFile.js";
import { child, childrenOf, type Element, textOf } from "./readXml.js";

const problem = problemsOf(formatCodes);

/** A note within its bar. */
export interface MeasureNote extends Omit<MusicXmlNote, "position" | "bar"> {
  readonly offset: Fraction;
  readonly tieStarts: boolean;
  readonly tieStops: boolean;
}

export interface Ending {
  readonly numbers: readonly number[];
  readonly type: string;
}

/** One bar as written, before repeats. */
export interface Measure {
  readonly number: string;
  readonly implicit: boolean;
  readonly length: Fraction;
  readonly meter: Meter | undefined;
  readonly notes: readonly MeasureNote[];
  readonly forward: boolean;
  /** Times the section is played, when a backward repeat ends the bar; 2 without a number in the file. */
  readonly backward: number | undefined;
  readonly endings: readonly Ending[];
  readonly problems: readonly Problem[];
}

/** Reads one `measure` element; `state` carries divisions, meter and transposition from bar to bar and is changed. */
export function readMeasure(
  element: Element,
  state: StaffState,
  part: { name: string; keys: ReadonlyMap<string, number> },
): Measure {
  const number = element.attributes.number ?? "";
  const problems: Problem[] = [];
  const said = (code: keyof typeof formatCodes, message: string): void => {
    if (!problems.some((p) => p.code === code && p.message.startsWith(message))) {
      problems.push(problem(code, `${message} (bar ${number} of ${part.name})`));
    }
  };
  const notes: MeasureNote[] = [];
  let cursor = ZERO;
  let end = ZERO;
  let start = ZERO;
  let chordFrom = 0;
  let forward = false;
  let backward: number | undefined;
  const endings: Ending[] = [];
  for (const item of element.children) {
    if (item.name === "attributes") readAttributes(item, state);
    else if (item.name === "note") {
      const read = readNote(item, state, { said, keys: part.keys });
      if (!read) continue;
      if (!read.chord) {
        start = cursor;
        cursor = add(cursor, read.length);
        chordFrom = notes.length;
      }
      end = later(end, add(start, read.length));
      if (read.note) {
        notes.push({ ...read.note, offset: start });
        shareAccent(notes, chordFrom);
      }
    } else if (item.name === "backup" || item.name === "forward") {
      const length = durationOf(item, state, said);
      if (!length) continue;
      cursor = item.name === "forward" ? add(cursor, length) : subtract(cursor, length);
      if (cursor.n < 0) {
        said("MUSICXML_BACKUP_TOO_FAR", "a backup goes before the start of its bar");
        cursor = ZERO;
      }
      end = later(end, cursor);
    } else if (item.name === "barline") {
      const repeat = child(item, "repeat")?.attributes;
      if (repeat?.direction === "forward") forward = true;
      if (repeat?.direction === "backward") backward = wholeNumber(repeat.times) ?? 2;
      for (const ending of childrenOf(item, "ending")) endings.push(readEnding(ending, said));
    } else if (item.name === "sound" || item.name === "direction") {
      const sound = item.name === "sound" ? item : child(item, "sound");
      const jumps = ["dacapo", "dalsegno", "tocoda"].filter((name) => sound?.attributes[name] !== undefined);
      if (jumps.length > 0)
        said("MUSICXML_JUMP_NOT_FOLLOWED", "da capo, dal segno and coda are not followed: write the bars out");
    }
  }
  const implicit = element.attributes.implicit === "yes";
  const nominal = state.meter ? barLength(state.meter) : state.length;
  if (nominal && !implicit && compare(nominal, end) !== 0 && end.n > 0) {
    said("MUSICXML_BAR_LENGTH_DIFFERS", "the bar does not have the length its time signature asks for");
  }
  const length = implicit || !nominal ? end : later(nominal, end);
  notes.sort((a, b) => compare(a.offset, b.offset));
  return { number, implicit, length, meter: state.meter, notes, forward, backward, endings, problems };
}

/** An accent on one note of a chord applies to the whole chord. Each percussion stroke has its own accent. */
function shareAccent(notes: MeasureNote[], from: number): void {
  const chord = notes.slice(from).filter(({ written }) => written !== undefined);
  if (!chord.some(({ accent }) => accent)) return;
  for (let i = from; i < notes.length; i++)
    if (notes[i]!.written !== undefined) notes[i] = { ...notes[i]!, accent: true };
}

type Say = (code: keyof typeof formatCodes, message: string) => void;

function readNote(
  element: Element,
  state: StaffState,
  { said, keys }: { said: Say; keys: ReadonlyMap<string, number> },
): { length: Fraction; chord: boolean; note?: Omit<MeasureNote, "offset"> } | undefined {
  if (child(element, "grace")) {
    said("MUSICXML_GRACE_NOTE", "a grace note takes no time of its own and is left out");
    return undefined;
  }
  const length = durationOf(element, state, said);
  if (!length) return undefined;
  const chord = child(element, "chord") !== undefined;
  if (child(element, "rest")) return { length, chord };
  if (child(element, "cue")) {
    said("MUSICXML_CUE_NOTE", "a cue note is left out");
    return { length, chord };
  }
  const unpitched = child(element, "unpitched") !== undefined;
  const written = unpitched ? undefined : readPitch(child(element, "pitch"), said);
  if (!unpitched && !written) return { length, chord };
  const percussion = unpitched
    ? (keys.get(child(element, "instrument")?.attributes.id ?? "") ?? keys.get(""))
    : undefined;
  const ties = childrenOf(element, "tie").map((tie) => tie.attributes.type);
  const articulations = childrenOf(element, "notations").flatMap((n) => childrenOf(n, "articulations"));
  const accent = articulations.some((a) => child(a, "accent") !== undefined || child(a, "strong-accent") !== undefined);
  const note = {
    length,
    ...(written ? { written } : {}),
    ...(percussion === undefined ? {} : { percussion }),
    transposition: state.transposition,
    voice: textOf(element, "voice") ?? "1",
    chord,
    accent,
    tieStarts: ties.includes("start"),
    tieStops: ties.includes("stop"),
  };
  return { length, chord, note };
}

function readPitch(element: Element | undefined, said: Say): StaffPitch | undefined {
  const letter = element && textOf(element, "step");
  const octave = element && wholeNumber(textOf(element, "octave"));
  const alter = Number((element && textOf(element, "alter")) || 0);
  if (!letter || !/^[A-G]$/.test(letter) || octave === undefined || !(Math.abs(alter) <= 3)) {
    said(
      "MUSICXML_PITCH_NOT_READ",
      "a note has a step from A to G, an octave from 0 to 9 and at most three accidentals; one here does not",
    );
    return undefined;
  }
  if (!Number.isInteger(alter))
    said("MUSICXML_MICROTONE", "a quarter tone is taken as the semitone nearer to the natural note");
  return { letter: letter as StaffPitch["letter"], alter: Math.trunc(alter) + 0, octave };
}

function durationOf(element: Element, state: StaffState, said: Say): Fraction | undefined {
  const duration = parseDecimal(textOf(element, "duration") ?? "");
  if (!duration || duration.n <= 0) {
    said("MUSICXML_DURATION_MISSING", "every note has a duration above 0; one here does not");
    return undefined;
  }
  if (!state.quarter) {
    said("MUSICXML_DIVISIONS_MISSING", "durations need divisions above 0 before them");
    return undefined;
  }
  return multiply(duration, state.quarter);
}

function readEnding(element: Element, said: Say): Ending {
  const text = element.attributes.number ?? "";
  const numbers = text.split(/[\s,]+/).flatMap((n) => (/^\d{1,3}$/.test(n) ? [Number(n)] : []));
  if (numbers.length === 0)
    said("MUSICXML_ENDING_NOT_READ", `the ending ${JSON.stringify(text.slice(0, 20))} has no number`);
  return { numbers, type: element.attributes.type ?? "" };
}

function wholeNumber(text: string | undefined): number | undefined {
  return text !== undefined && /^\d{1,3}$/.test(text) ? Number(text) : undefined;
}

function later(a: Fraction, b: Fraction): Fraction {
  return compare(a, b) >= 0 ? a : b;
}
