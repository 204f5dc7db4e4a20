import { FADE, faded } from "../fade.js";
import { panGains } from "../stereoPan.js";
import type { Timeline, Track } from "../timeline.js";
import { type VoicedNote, voicedClicks, voicedNotes } from "./scoreVoices.js";

/** A stereo mix that sounds are added to: left and right channel. */
export type Bus = readonly [Float32Array, Float32Array];

/** Adds the clicks of the count-in. They are always the built-in sound, also with a sound bank, so that each begins exactly on its sample. */
export function playClicks(bus: Bus, line: Timeline): void {
  for (const note of voicedClicks(line)) addNote(bus, note, line);
}

/** Adds a track played by the built-in voices. */
export function playBuiltIn(bus: Bus, track: Track, line: Timeline): void {
  for (const note of voicedNotes(track, line)) addNote(bus, note, line);
}

function addNote([left, right]: Bus, note: VoicedNote, { rate, downbeat }: Timeline): void {
  const sound = note.samples();
  const { height } = note;
  const from = downbeat + note.from;
  const [toLeft, toRight] = panGains(note.pan);
  const steps = Math.floor(FADE * rate);
  const fadesFrom = note.stop - note.from;
  const end = Math.min(sound.length, left.length - from, fadesFrom + steps);
  for (let i = 0; i < end; i++) {
    const value = sound[i]! * height * (i < fadesFrom ? 1 : faded(i - fadesFrom, steps));
    left[from + i]! += value * toLeft;
    right[from + i]! += value * toRight;
  }
}
