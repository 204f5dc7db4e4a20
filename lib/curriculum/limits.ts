import type { Pattern } from "../pattern/index.js";
import type { DrillDocument, LadderDocument, PatternDocument } from "../schema/index.js";
import { meterText } from "../time/index.js";

/**
 * How much a curriculum may hold. All limits are our choice. Up to LARGEST_PIECE they are about ten times what a course of a hundred drills needs, and
 * small enough that every text inside them is read, or refused, in well under a second and in 200 MB. A larger text is a course when it consists of
 * entries that keep these limits; what it may cost grows with its length, at a few times the rate of an ordinary course, so that a text that asks
 * for more than its length tells is refused as early as a small one.
 */

/** Characters (UTF-16 code units) of the YAML text. A course of 5,000 drills has about 2 million. */
export const LARGEST_TEXT: number = 2_621_440;

/** Characters of a text that is read in one piece; of a larger one, characters of one pattern or drill, and of all around patterns and drills. */
export const LARGEST_PIECE: number = 262_144;

/** Characters of a text whose lines are moved and brackets closed to find what is wrong: each is read some twenty times, and most courses have a fifth of this. */
export const LARGEST_MENDED: number = 49_152;

/** Patterns and drills of a text above LARGEST_PIECE, before it is read; the schema has a limit for each. */
export const MOST_ENTRIES: number = 20_000;

/**
 * YAML tokens (words, signs, spaces, line ends) of the first `read` characters of a text of this length. An ordinary course has one in two characters, and
 * may have more here and there.
 */
export function mostTokens(length: number, read: number = length): number {
  const tokens = (characters: number): number => Math.floor(0.55 * characters);
  return Math.min(Math.max(FEWEST_TOKENS, tokens(length)), FEWEST_TOKENS + tokens(read));
}

/** Tokens that every text may have, however short. */
const FEWEST_TOKENS = 150_000;

/** Levels of nesting; a curriculum needs 8. */
export const DEEPEST: number = 32;

/** Values and characters of a text of this length after every alias is written out. In an ordinary course that is as much as without aliases. */
export function largestExpansion(length: number): number {
  return Math.max(393_216, 1.5 * length);
}

/** YAML syntax errors reported. Later errors mostly follow from the first. */
export const MOST_SYNTAX_ERRORS: number = 20;

/** Problems of one severity kept while a curriculum is read, so that a text full of problems is answered in time. */
export const MOST_KEPT: number = 5_000;

/** Problems reported of one curriculum. */
export const MOST_PROBLEMS: number = 500;

/** Names that unknown ones are compared with, all together: a course with thousands of unknown names is answered in time. */
export const MOST_COMPARED: number = 1_000_000;

/** Bytes of one MIDI or MusicXML file. */
export const LARGEST_FILE: number = 1_048_576;

/** Bytes of all files together, each counted as often as it is named. */
export const LARGEST_FILES: number = 4_194_304;

/** Notes of all patterns of a text of this length together, variants and repeated bars included. */
export function mostNotes(length: number): number {
  return Math.max(60_000, Math.floor(length / 10));
}

/** Notes of one pattern. */
export const MOST_NOTES_IN_PATTERN: number = 20_000;

/** Units of work (see `workEstimate`) of all drills of a text of this length. A hundred ordinary drills need about 300,000: three for each character. */
export function mostWork(length: number): number {
  return Math.max(4_000_000, 6 * length);
}

/** Work for each bar and note of a pattern: once, and for each phrase of a take. Silences are counted beside it. Measured. */
const WORK_ONCE = 20;

const WORK_PER_PHRASE = 2;

/** Most lengths of silences that grow in a take: one for each phrase. */
const MOST_GROWING = 64;

/** Most units of work of one drill. A drill with more is not checked in full and reports that itself (LADDERS_NOT_ALL_CHECKED). */
const MOST_WORK_IN_DRILL = 2_000_000;

/**
 * Work estimate for the checks of a drill: the bars and notes of its pattern, for each combination of lengths, variants, open bars and
 * places of silences, and its notes for each player in each key. One unit is a quarter of a microsecond at most (measured on the slowest
 * shapes found). An ordinary drill has a few thousand units.
 */
export function workEstimate(drill: DrillDocument, pattern: Pattern): number {
  const bars = pattern.bars.length;
  const part = pattern.parts.find(({ name }) => name === drill.student);
  const notes = Object.values(part?.variants ?? {}).reduce((sum, variant) => sum + variant.length, 0);
  const combinations = lengthCount(drill, pattern) * valueCount(drill, "variant") * valueCount(drill, "open");
  const silences = drill.dropout === undefined ? 0 : combinations * placeCount(drill, bars);
  const passes = WORK_ONCE + WORK_PER_PHRASE * (typeof drill.phrases === "number" ? drill.phrases : 1) + silences;
  const readings = notes * valueCount(drill, "key") * (drill.players?.length ?? 0);
  return Math.min((bars + notes) * passes + readings, MOST_WORK_IN_DRILL);
}

/** Estimate of the notes of a pattern that could not be compiled: the words of each line, once and again for each bar it repeats. */
export function noteEstimate(pattern: PatternDocument): number {
  const lines = Object.values(pattern.parts).flatMap((part) => [part, ...Object.values(part.variants ?? {})]);
  const texts = lines.flatMap(({ notes, voices }) => [
    ...(notes === undefined ? [] : [notes]),
    ...Object.values(voices ?? {}),
  ]);
  return texts.reduce((sum, text) => sum + text.split(/\s+/).length * (1 + (text.match(/%/g)?.length ?? 0)), 0);
}

/** How many values of a ladder are checked: all values of a list, the two ends of steps, 1 without a ladder. */
function valueCount(drill: DrillDocument, parameter: keyof LadderDocument): number {
  return (drill.ladders ?? []).reduce((most, ladder) => {
    const values = ladder[parameter];
    if (values === undefined) return most;
    return Math.max(most, Array.isArray(values) ? values.length : 2);
  }, 1);
}

/** Estimate of the lengths of silence that are checked: where the meter changes, all lengths of silences that grow. */
function lengthCount(drill: DrillDocument, { bars }: Pattern): number {
  const grows = drill.dropout?.grows !== undefined;
  const meters = new Set(bars.map(({ meter }) => meterText(meter)));
  const each = grows ? (meters.size > 1 ? MOST_GROWING : 2) : 1;
  return each * Math.max(valueCount(drill, "dropout"), valueCount(drill, "grows"));
}

function placeCount({ dropout }: DrillDocument, bars: number): number {
  if (dropout?.at === "random") return bars;
  return Array.isArray(dropout?.at) ? dropout.at.length : 1;
}
