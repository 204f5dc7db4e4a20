import type { Pattern } from "../pattern/index.js";
import type { DrillDocument, LadderDocument, PatternDocument } from "../schema/index.js";

/**
 * How much a curriculum may hold. All are our choice: about ten times what a course of a hundred drills needs, and little enough
 * that whatever is written inside them is read, or refused, in well under a second and 200 MB.
 */

/** Characters (UTF-16 code units) of the YAML text. */
export const LARGEST_TEXT: number = 262_144;

/** Pieces (words, signs, spaces, line ends) the YAML falls into. */
export const MOST_TOKENS: number = 60_000;

/** Levels of nesting; a curriculum needs 8. */
export const DEEPEST: number = 32;

/** Values and characters after every alias has been written out. */
export const LARGEST_EXPANSION: number = 393_216;

/** YAML syntax errors reported; those after the first few are mostly echoes of the first. */
export const MOST_SYNTAX_ERRORS: number = 20;

/** Problems kept of one curriculum while it is read, so that a text full of them is answered in time. */
export const MOST_KEPT: number = 10_000;

/** Problems reported of one curriculum. */
export const MOST_PROBLEMS: number = 500;

/** Bytes of one MIDI or MusicXML file. */
export const LARGEST_FILE: number = 1_048_576;

/** Bytes of all files together, each counted as often as it is named. */
export const LARGEST_FILES: number = 4_194_304;

/** Notes of all patterns together, variants and repeated bars included. */
export const MOST_NOTES: number = 60_000;

/** Notes of one pattern. */
export const MOST_NOTES_IN_PATTERN: number = 20_000;

/** Units of work (see `workOf`) in all drills together; a hundred ordinary drills need about 300,000. */
export const MOST_WORK: number = 4_000_000;

/** What going through a pattern costs beside its silences, for each bar and note; for each phrase of a take, the same. Measured. */
const WORK_ONCE = 20;

const WORK_PER_PHRASE = 2;

/** A drill that has more is not checked in full, and says so itself. */
const MOST_WORK_IN_DRILL = 2_000_000;

/**
 * About how much there is to check in a drill: the bars and notes of its pattern, for each combination of lengths, variants, open bars
 * and places of silences, and for each player in each key. One unit is a quarter of a microsecond at most (measured on the slowest
 * shapes found); an ordinary drill has a few thousand.
 */
export function workOf(drill: DrillDocument, pattern: Pattern): number {
  const bars = pattern.bars.length;
  const part = pattern.parts.find(({ name }) => name === drill.student);
  const notes = Object.values(part?.variants ?? {}).reduce((sum, variant) => sum + variant.length, 0);
  const combinations = stepsIn(drill, "dropout") * stepsIn(drill, "variant") * stepsIn(drill, "open");
  const silences = drill.dropout === undefined ? 0 : combinations * placesIn(drill, bars);
  const passes = WORK_ONCE + WORK_PER_PHRASE * (drill.phrases ?? 1) + silences;
  const readings = notes * stepsIn(drill, "key") * (drill.players?.length ?? 0);
  return Math.min((bars + notes) * passes + readings, MOST_WORK_IN_DRILL);
}

/** About how many notes, or hits, a pattern may have cost that could not be read: the words of each line, for each bar it repeats. */
export function notesWritten(pattern: PatternDocument): number {
  const lines = Object.values(pattern.parts).flatMap((part) => [part, ...Object.values(part.variants ?? {})]);
  const texts = lines.flatMap(({ notes, voices }) => [
    ...(notes === undefined ? [] : [notes]),
    ...Object.values(voices ?? {}),
  ]);
  return texts.reduce((sum, text) => sum + text.split(/\s+/).length * (1 + (text.match(/%/g)?.length ?? 0)), 0);
}

/** Values of a list; the two ends of steps. */
function stepsIn(drill: DrillDocument, parameter: keyof LadderDocument): number {
  return (drill.ladders ?? []).reduce((most, ladder) => {
    const values = ladder[parameter];
    if (values === undefined) return most;
    return Math.max(most, Array.isArray(values) ? values.length : 2);
  }, 1);
}

function placesIn({ dropout }: DrillDocument, bars: number): number {
  if (dropout?.at === "random") return bars;
  return Array.isArray(dropout?.at) ? dropout.at.length : 1;
}
