import { add, compare, type Fraction, multiply, subtract, type Worded, ZERO } from "../../base/index.js";
import { barLength, type Meter, parseDecimal } from "../../time/index.js";
import { type formatCodes, problem } from "../codes.js";
import type { Problem } from "../problem.js";
import { say } from "../say.js";
import { articulationOf, sharedBy } from "./articulations.js";
import { readAttributes, type StaffState } from "./attributes.js";
import type { MusicXmlNote, StaffPitch, XmlTuplet } from "./musicXmlFile.js";
import { child, childrenOf, type Element, textOf } from "./readXml.js";

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
  const place: BarPlace = { bar: number, part: part.name };
  const report: Report = (code, message) => {
    if (!problems.some((p) => p.code === code && p.message === message.says)) problems.push(problem(code, message));
  };
  const notes: MeasureNote[] = [];
  const tupletAt = tupletsOfBar();
  let cursor = ZERO;
  let end = ZERO;
  let start = ZERO;
  let chordFrom = 0;
  let forward = false;
  let backward: number | undefined;
  const endings: Ending[] = [];
  const marked: { readonly offset: Fraction; readonly loudness: Loudness }[] = [];
  for (const item of element.children) {
    if (item.name === "attributes") readAttributes(item, state);
    else if (item.name === "note") {
      const read = readNote(item, state, { report, place, keys: part.keys });
      if (!read) continue;
      if (!read.chord) {
        start = cursor;
        cursor = add(cursor, read.length);
        chordFrom = notes.length;
      }
      end = later(end, add(start, read.length));
      const tuplet = tupletAt(item, start, add(start, read.length));
      if (read.note) {
        notes.push({ ...read.note, offset: start, ...(tuplet && { tuplet, endsIn: tuplet }) });
        shareArticulation(notes, chordFrom);
      }
    } else if (item.name === "backup" || item.name === "forward") {
      const length = durationOf(item, state, { report, place });
      if (!length) continue;
      cursor = item.name === "forward" ? add(cursor, length) : subtract(cursor, length);
      if (cursor.n < 0) {
        report("MUSICXML_BACKUP_TOO_FAR", say("formats-problem.musicxml-backup-too-far", place));
        cursor = ZERO;
      }
      end = later(end, cursor);
    } else if (item.name === "barline") {
      const repeat = child(item, "repeat")?.attributes;
      if (repeat?.direction === "forward") forward = true;
      if (repeat?.direction === "backward") backward = wholeNumber(repeat.times) ?? 2;
      for (const ending of childrenOf(item, "ending")) endings.push(readEnding(ending, { report, place }));
    } else if (item.name === "sound" || item.name === "direction") {
      const loudness = dynamicIn(item);
      if (loudness !== undefined) marked.push({ offset: cursor, loudness });
      const sound = item.name === "sound" ? item : child(item, "sound");
      const jumps = ["dacapo", "dalsegno", "tocoda"].filter((name) => sound?.attributes[name] !== undefined);
      if (jumps.length > 0)
        report("MUSICXML_JUMP_NOT_FOLLOWED", say("formats-problem.musicxml-jump-not-followed", place));
    }
  }
  const implicit = element.attributes.implicit === "yes";
  const nominal = state.meter ? barLength(state.meter) : state.length;
  if (nominal && !implicit && compare(nominal, end) !== 0 && end.n > 0) {
    report("MUSICXML_BAR_LENGTH_DIFFERS", say("formats-problem.musicxml-bar-length-differs", place));
  }
  const length = implicit || !nominal ? end : later(nominal, end);
  notes.sort((a, b) => compare(a.offset, b.offset));
  return {
    number,
    implicit,
    length,
    meter: state.meter,
    notes: withLoudness(notes, marked, state),
    forward,
    backward,
    endings,
    problems,
  };
}

/** Finds the tuplet of each note and rest of a bar, from its beginning to its end: that of its voice, which reaches as far as its last note does. */
function tupletsOfBar(): (item: Element, from: Fraction, to: Fraction) => XmlTuplet | undefined {
  const open = new Map<string, { from: Fraction; to: Fraction; depth: number }>();
  return (item, from, to) => {
    const voice = textOf(item, "voice") ?? "1";
    if (!child(item, "time-modification")) open.delete(voice);
    else {
      const types = childrenOf(item, "notations").flatMap((each) =>
        childrenOf(each, "tuplet").map(({ attributes }) => attributes.type),
      );
      const count = (type: string): number => types.filter((each) => each === type).length;
      const before = open.get(voice);
      // A bracket inside another is part of it.
      const begins = before === undefined || (before.depth === 0 && count("start") > 0);
      const own = begins ? { from, to, depth: 0 } : before;
      own.to = later(own.to, to);
      own.depth = Math.max(0, own.depth + count("start") - count("stop"));
      open.set(voice, own);
      return own;
    }
    return undefined;
  };
}

type Loudness = NonNullable<MusicXmlNote["loudness"]>;

/** The dynamic mark of a direction; `undefined` for another direction, and for marks of one note (sf, fp). Softer than pp is pp, louder than ff is ff. */
function dynamicIn(item: Element): Loudness | undefined {
  for (const type of childrenOf(item, "direction-type"))
    for (const { children } of childrenOf(type, "dynamics"))
      for (const { name } of children) {
        if (/^(?:pp?|m[pf]|ff?)$/.test(name)) return name as Loudness;
        if (/^p{3,6}$/.test(name)) return "pp";
        if (/^f{3,6}$/.test(name)) return "ff";
      }
  return undefined;
}

/** Notes in order of time with the mark in force at each; the last mark goes on into the bars that follow. */
function withLoudness(
  notes: readonly MeasureNote[],
  marked: readonly { readonly offset: Fraction; readonly loudness: Loudness }[],
  state: StaffState,
): readonly MeasureNote[] {
  const before = state.loudness;
  state.loudness = marked.at(-1)?.loudness ?? before;
  return notes.map((note) => {
    const loudness = marked.findLast(({ offset }) => compare(offset, note.offset) <= 0)?.loudness ?? before;
    return loudness === undefined ? note : { ...note, loudness };
  });
}

/** Signs on one note of a chord are the chord's, which has one slur. Each percussion stroke has its own. */
function shareArticulation(notes: MeasureNote[], from: number): void {
  const chord = notes.slice(from).filter(({ written }) => written !== undefined);
  if (chord.length < 2) return;
  const said = sharedBy(chord);
  for (let i = from; i < notes.length; i++) {
    const { slurred: _, ...note } = notes[i]!;
    if (note.written !== undefined) notes[i] = { ...note, ...said };
  }
}

type Report = (code: keyof typeof formatCodes, message: Worded) => void;

/** The number of a bar and the name of its part, as the file has them. */
interface BarPlace {
  readonly bar: string;
  readonly part: string;
}

interface Reporting {
  readonly report: Report;
  readonly place: BarPlace;
}

function readNote(
  element: Element,
  state: StaffState,
  { report, place, keys }: Reporting & { readonly keys: ReadonlyMap<string, number> },
): { length: Fraction; chord: boolean; note?: Omit<MeasureNote, "offset"> } | undefined {
  if (child(element, "grace")) {
    report("MUSICXML_GRACE_NOTE", say("formats-problem.musicxml-grace-note", place));
    return undefined;
  }
  const length = durationOf(element, state, { report, place });
  if (!length) return undefined;
  const chord = child(element, "chord") !== undefined;
  if (child(element, "rest")) return { length, chord };
  if (child(element, "cue")) {
    report("MUSICXML_CUE_NOTE", say("formats-problem.musicxml-cue-note", place));
    return { length, chord };
  }
  const unpitched = child(element, "unpitched") !== undefined;
  const written = unpitched ? undefined : readPitch(child(element, "pitch"), { report, place });
  if (!unpitched && !written) return { length, chord };
  const percussion = unpitched
    ? (keys.get(child(element, "instrument")?.attributes.id ?? "") ?? keys.get(""))
    : undefined;
  const ties = childrenOf(element, "tie").map((tie) => tie.attributes.type);
  const voice = textOf(element, "voice") ?? "1";
  const note = {
    length,
    ...(written ? { written } : {}),
    ...(percussion === undefined ? {} : { percussion }),
    transposition: state.transposition,
    voice,
    chord,
    ...articulationOf(element, voice, state),
    ...(child(element, "notehead")?.attributes.parentheses === "yes" ? { ghost: true as const } : {}),
    tieStarts: ties.includes("start"),
    tieStops: ties.includes("stop"),
  };
  return { length, chord, note };
}

function readPitch(element: Element | undefined, { report, place }: Reporting): StaffPitch | undefined {
  const letter = element && textOf(element, "step");
  const octave = element && wholeNumber(textOf(element, "octave"));
  const alter = Number((element && textOf(element, "alter")) || 0);
  if (!letter || !/^[A-G]$/.test(letter) || octave === undefined || !(Math.abs(alter) <= 3)) {
    report("MUSICXML_PITCH_NOT_READ", say("formats-problem.musicxml-pitch-not-read", place));
    return undefined;
  }
  if (!Number.isInteger(alter)) report("MUSICXML_MICROTONE", say("formats-problem.musicxml-microtone", place));
  return { letter: letter as StaffPitch["letter"], alter: Math.trunc(alter) + 0, octave };
}

function durationOf(element: Element, state: StaffState, { report, place }: Reporting): Fraction | undefined {
  const duration = parseDecimal(textOf(element, "duration") ?? "");
  if (!duration || duration.n <= 0) {
    report("MUSICXML_DURATION_MISSING", say("formats-problem.musicxml-duration-missing", place));
    return undefined;
  }
  if (!state.quarter) {
    report("MUSICXML_DIVISIONS_MISSING", say("formats-problem.musicxml-divisions-missing", place));
    return undefined;
  }
  return multiply(duration, state.quarter);
}

function readEnding(element: Element, { report, place }: Reporting): Ending {
  const text = element.attributes.number ?? "";
  const numbers = text.split(/[\s,]+/).flatMap((n) => (/^\d{1,3}$/.test(n) ? [Number(n)] : []));
  if (numbers.length === 0)
    report(
      "MUSICXML_ENDING_NOT_READ",
      say("formats-problem.musicxml-ending-not-read", { ...place, found: JSON.stringify(text.slice(0, 20)) }),
    );
  return { numbers, type: element.attributes.type ?? "" };
}

function wholeNumber(text: string | undefined): number | undefined {
  return text !== undefined && /^\d{1,3}$/.test(text) ? Number(text) : undefined;
}

function later(a: Fraction, b: Fraction): Fraction {
  return compare(a, b) >= 0 ? a : b;
}
