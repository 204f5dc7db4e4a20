import { failure, problemsOf, resultOf } from "../base/index.js";
import { type MidiFile, type MidiNote, readMidiFile } from "../formats/midi/index.js";
import type { PlayedOnset, Take } from "../schema/index.js";
import { listenCodes } from "./codes.js";
import type { Problem, Result } from "./problem.js";
import { sayProblem } from "./say.js";

const problem = problemsOf(listenCodes);

/** Limits of a take, as its schema states them. */
const MOST_ONSETS = 200_000;
const LATEST_SECONDS = 86_400;

/** Keys of channel 10 (9 from 0) are drums, not pitches (General MIDI System Level 1). */
const PERCUSSION_CHANNEL = 9;

export interface MidiTakeOptions {
  /** What the start of the file is; the start of the count-in when left out. */
  readonly zero?: "count-in" | "bar-1";
  /** Only this track, from 1; all tracks when left out. */
  readonly track?: number;
  /** Only this channel, 1 to 16; all channels when left out. */
  readonly channel?: number;
  /** Name of the take. */
  readonly id?: string;
}

/**
 * The onsets of a Standard MIDI File as a take: seconds from the start of the file by its own tempo map or frame rate, with concert
 * pitch (as MIDI note number; left out on the percussion channel) and velocity.
 *
 * A file without notes is a take in which nothing was played. Problems are those of the file's structure, and of the choice of track.
 * Throws `RangeError` when `track` or `channel` is not a whole number in its range.
 *
 * @example
 * const take = readMidiTake(bytes, { zero: "bar-1", channel: 1 });
 */
export function readMidiTake(bytes: Uint8Array, options: MidiTakeOptions = {}): Result<Take> {
  requireCount("track", options.track, 65_535);
  requireCount("channel", options.channel, 16);
  const file = readMidiFile(bytes);
  if (!file.ok) return file;
  const chosen = notesOf(file.value, options);
  if (!chosen.ok) return chosen;
  const onsets = chosen.value.map(onsetOf).sort((a, b) => a.at - b.at);
  const limits = limitProblems(onsets);
  const take: Take = {
    version: 1,
    ...(options.id === undefined ? {} : { id: options.id }),
    onsets,
    zero: options.zero ?? "count-in",
  };
  return resultOf(take, [...file.advice, ...chosen.advice, ...limits]);
}

function notesOf(file: MidiFile, { track, channel }: MidiTakeOptions): Result<readonly MidiNote[]> {
  if (track !== undefined && track > file.tracks.length) {
    const tracks = { track: String(track), count: String(file.tracks.length) };
    return failure(problem("TAKE_TRACK_MISSING", sayProblem("listen-problem.take-track-missing", tracks)));
  }
  const tracks = track === undefined ? file.tracks : [file.tracks[track - 1]!];
  const played = tracks
    .map(({ index, name, notes }) => ({
      index,
      name,
      notes: channel === undefined ? notes : notes.filter((note) => note.channel === channel - 1),
    }))
    .filter(({ notes }) => notes.length > 0);
  const numbers = played.map(({ index }) => String(index + 1));
  if (file.format === 2 && played.length > 1) {
    // The tracks of format 2 each have a time of their own: there is no telling how they would sound together.
    const message = sayProblem("listen-problem.take-track-unclear", { tracks: numbers });
    const remedy = sayProblem("listen-problem.take-track-unclear-remedy", { tracks: numbers });
    return failure(problem("TAKE_TRACK_UNCLEAR", message, {}, remedy));
  }
  return resultOf(
    played.flatMap(({ notes }) => notes),
    choiceAdvice(played.map(({ index, name }) => (name ? `${index + 1} (${name})` : `${index + 1}`))),
  );
}

/** Of the tracks that have notes, by their numbers and names. */
function choiceAdvice(tracks: readonly string[]): readonly Problem[] {
  if (tracks.length === 0) return [problem("TAKE_WITHOUT_NOTES", sayProblem("listen-problem.take-without-notes"))];
  if (tracks.length === 1) return [];
  const message = sayProblem("listen-problem.take-several-tracks", { tracks });
  return [problem("TAKE_SEVERAL_TRACKS", message, {}, sayProblem("listen-problem.take-several-tracks-remedy"))];
}

function onsetOf({ channel, key, seconds, velocity }: MidiNote): PlayedOnset {
  return { at: seconds, ...(channel === PERCUSSION_CHANNEL ? {} : { pitch: key }), velocity };
}

function limitProblems(onsets: readonly PlayedOnset[]): readonly Problem[] {
  const last = onsets.at(-1)?.at ?? 0;
  if (onsets.length <= MOST_ONSETS && last <= LATEST_SECONDS) return [];
  const limits = { most: String(MOST_ONSETS), latest: String(LATEST_SECONDS) };
  const found = { found: String(onsets.length), last: String(Math.round(last)) };
  return [problem("TAKE_TOO_LONG", sayProblem("listen-problem.take-too-long", { ...limits, ...found }))];
}

function requireCount(name: string, value: number | undefined, most: number): void {
  if (value === undefined || (Number.isInteger(value) && value >= 1 && value <= most)) return;
  throw new RangeError(`${name} must be a whole number from 1 to ${most}, got ${value}`);
}
