import type { Drill } from "../drill/index.js";

/** Minutes of playing after which a rest is planned, and how long it is: common advice (25 to 30 minutes, then 5), of no medical body. */
export const PLAYING_MINUTES = 25;
export const REST_MINUTES = 5;

/** Most minutes that are planned for a day, however many are asked for. Our choice: two rounds of playing with a rest between; other music has its own time. */
export const DAY_MINUTES = 60;

/** Seconds between takes: to breathe, read what was found and count in again. Our choice. */
export const PAUSE_SECONDS = 20;

/** A short rest, after so many takes in a row. */
export interface ShortRest {
  readonly after: number;
  readonly seconds: number;
}

/** Seconds of a short rest. Our choice: about a take long, as brass players are told to rest as long as they play (common practice, no source). */
const SHORT_REST_SECONDS = 45;
/** Takes before a short rest where nothing is known of the instrument. Our choice, the middle of the range. */
const USUAL = 4;
/**
 * Takes before a short rest by the words in an instrument's name, from 2 to 6; the first that fits counts. Common practice, no source: lips tire
 * first, then embouchures on reeds and voices, then the arms and hands of string players; drummers and keyboard players go on longest.
 */
const TAKES: readonly (readonly [takes: number, words: RegExp])[] = [
  [6, /drum|kit|snare|timpani|percussion|xylophone|vibraphone|marimba|glockenspiel|piano|keyboard|organ/],
  [4, /clarinet|saxophone|oboe|english horn|bassoon|flute|piccolo|recorder|voice/],
  [3, /trumpet|cornet|flugelhorn|horn|trombone|euphonium|baritone|tuba|sousaphone/],
  [5, /violin|viola|cello|bass|guitar|harp|ukulele|mandolin|banjo/],
];

/**
 * The short rests of a session: by the instrument of the student, else by the instruments its drill is for, the one that tires first.
 *
 * @example
 * shortRest({ instrument: "trombone" }) // { after: 3, seconds: 45 }
 */
export function shortRest({
  instrument,
  drill,
}: {
  readonly instrument?: string | undefined;
  readonly drill?: Drill | undefined;
}): ShortRest {
  const part = drill?.pattern.parts.find(({ name }) => name === drill.student);
  const own = part?.instrument ?? (part?.kind === "percussion" ? "drum kit" : undefined);
  const players = drill?.players.map((player) => player.instrument.name) ?? [];
  const names = instrument !== undefined ? [instrument] : players.length > 0 ? players : own === undefined ? [] : [own];
  const after = Math.min(...names.map(takesBefore), ...(names.length === 0 ? [USUAL] : []));
  return { after, seconds: SHORT_REST_SECONDS };
}

function takesBefore(name: string): number {
  const lower = name.toLowerCase();
  return TAKES.find(([, words]) => words.test(lower))?.[0] ?? USUAL;
}

/** Whole seconds that a take of so many seconds (count-in included) needs in a plan, with the pause after it. */
export function slotSeconds(seconds: number): number {
  return Math.ceil(seconds + PAUSE_SECONDS);
}
