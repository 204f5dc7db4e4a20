import { add } from "../../base/index.js";
import { LEVEL_ONE_KEYS, midiNumber, PERCUSSION, parsePitch } from "../../pattern/index.js";
import type { ScoreNote, ScorePart } from "../../schema/index.js";
import { renderProblem } from "../codes.js";
import type { Problem } from "../problem.js";
import { problemIn } from "../problemIn.js";
import { sayProblem } from "../say.js";
import { exactly } from "../scoreTime.js";
import type { TickMap } from "../tickMap.js";
import { velocityOf } from "../velocity.js";

/** A note of a MIDI track: start and end in ticks, key 0 to 127. */
export interface KeyedNote {
  readonly ticks: number;
  readonly endTicks: number;
  readonly key: number;
  /** 1 to 127. */
  readonly velocity: number;
  /** Whether its pitch slides up to it at its beginning, and falls off at its end. */
  readonly scoop?: boolean;
  readonly fall?: boolean;
}

/** How much of its length a short note sounds, as in the score. */
const SHORT = 1 / 2;

/**
 * Notes with MIDI keys and ticks, in order of time. A key struck again while it sounds is ended first. A key struck twice at the same tick
 * becomes one note, the longer one. The reason: a note-off on a MIDI channel ends every note of its key.
 *
 * Problems, each with the part and the position of the note: PITCH_NOT_READ, PITCH_OUT_OF_RANGE, VOICE_WITHOUT_KEY.
 */
export function keyedNotes(
  { name, notes }: Pick<ScorePart, "name" | "notes">,
  ticks: TickMap,
): { readonly notes: readonly KeyedNote[]; readonly problems: readonly Problem[] } {
  const problems: Problem[] = [];
  const keyed: KeyedNote[] = [];
  for (const note of notes) {
    const key = keyOf(note, name);
    if (typeof key !== "number") {
      problems.push(...key);
      continue;
    }
    const from = exactly(note.position);
    const start = ticks.sounding(from, note.late);
    const end = ticks.sounding(add(from, exactly(note.length)), note.endLate);
    const heard = note.short ? start + Math.round((end - start) * SHORT) : end;
    const { scoop = false, fall = false } = note;
    keyed.push({ ticks: start, endTicks: Math.max(heard, start + 1), key, velocity: velocityOf(note), scoop, fall });
  }
  keyed.sort((a, b) => a.ticks - b.ticks || a.key - b.key);
  return { notes: apart(keyed), problems };
}

function apart(notes: readonly KeyedNote[]): readonly KeyedNote[] {
  const kept: KeyedNote[] = [];
  const lastOn = new Map<number, number>();
  for (const note of notes) {
    const index = lastOn.get(note.key);
    const before = index === undefined ? undefined : kept[index]!;
    if (index !== undefined && before?.ticks === note.ticks) {
      const endTicks = Math.max(before.endTicks, note.endTicks);
      kept[index] = { ...before, endTicks, velocity: Math.max(before.velocity, note.velocity) };
      continue;
    }
    if (index !== undefined && before && before.endTicks > note.ticks)
      kept[index] = { ...before, endTicks: note.ticks };
    lastOn.set(note.key, kept.length);
    kept.push(note);
  }
  return kept;
}

function keyOf(note: ScoreNote, part: string): number | readonly Problem[] {
  if (note.pitch !== undefined) {
    const read = parsePitch(note.pitch);
    if (read.ok) return midiNumber(read.value);
    const place = { part, position: note.position };
    return read.problems.map((each) => problemIn(each, "render-problem.pitch-in-part", place));
  }
  const key = PERCUSSION.get(note.voice ?? "");
  if (key !== undefined) return LEVEL_ONE_KEYS.get(key) ?? key;
  const voice = { part, voice: JSON.stringify(note.voice ?? ""), position: note.position };
  const message = sayProblem("render-problem.voice-without-key", voice);
  return [renderProblem("VOICE_WITHOUT_KEY", message)];
}
