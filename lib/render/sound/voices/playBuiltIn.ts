import { gainOf } from "../../velocity.js";
import { FADE, faded } from "../fade.js";
import { panGains, panInKit, panOf } from "../stereoPan.js";
import type { TimedNote, Timeline, Track } from "../timeline.js";
import { CHOKES, CLICK, DOWNBEAT_CLICK, STRIKES } from "./percussionKit.js";
import { strikeSound } from "./percussionSynthesis.js";
import { timbreOf } from "./timbres.js";
import { toneSound } from "./toneSynthesis.js";

/** A stereo mix that sounds are added to: left and right channel. */
export type Bus = readonly [Float32Array, Float32Array];

/** Adds the clicks of the count-in. They are always the built-in sound, also with a sound bank, so that each begins exactly on its sample. */
export function playClicks(bus: Bus, { clicks, rate }: Timeline): void {
  const high = strikeSound("downbeat click", DOWNBEAT_CLICK, rate);
  const low = strikeSound("click", CLICK, rate);
  for (const { from, isDownbeat } of clicks) {
    addSound(bus, isDownbeat ? high : low, { from, stop: Number.POSITIVE_INFINITY, height: 1, pan: 0, rate });
  }
}

/** Adds a track played by the built-in voices. */
export function playBuiltIn(bus: Bus, track: Track, { rate, tracks, tuning }: Timeline): void {
  const sounds = new Map<string, Float32Array>();
  const soundOf = (note: TimedNote): Float32Array => {
    const held = note.to - note.from;
    const name = track.program === undefined ? `${note.key}` : `${note.key}/${held}`;
    let sound = sounds.get(name);
    if (sound === undefined) {
      sound =
        track.program === undefined
          ? strikeSound(name, STRIKES.get(note.key)!, rate)
          : toneSound(note.key, held, { timbre: timbreOf(track.program), rate, tuning });
      sounds.set(name, sound);
    }
    return sound;
  };
  const ends = chokedBy(track);
  track.notes.forEach((note, i) => {
    const pan = track.program === undefined ? panInKit(note.key) : panOf(track, tracks);
    const height = gainOf(note.velocity);
    addSound(bus, soundOf(note), { from: note.from, stop: Math.min(note.stop, ends[i]!), height, pan, rate });
  });
}

/** Where each note of a percussion track is choked by a later note, for example an open hi-hat by a closed one; `Infinity` without one. */
function chokedBy({ program, notes }: Track): readonly number[] {
  if (program !== undefined) return notes.map(() => Number.POSITIVE_INFINITY);
  const latest = new Map<number, number>();
  const ends = new Array<number>(notes.length);
  for (let i = notes.length - 1; i >= 0; i--) {
    const { key, from } = notes[i]!;
    const next = latest.get(key);
    ends[i] = next !== undefined && next > from ? next : Number.POSITIVE_INFINITY;
    for (const choked of CHOKES.get(key) ?? []) latest.set(choked, from);
  }
  return ends;
}

function addSound(
  [left, right]: Bus,
  sound: Float32Array,
  { from, stop, height, pan, rate }: { from: number; stop: number; height: number; pan: number; rate: number },
): void {
  const [toLeft, toRight] = panGains(pan);
  const steps = Math.floor(FADE * rate);
  const end = Math.min(sound.length, left.length - from, stop + steps - from);
  const fadesFrom = stop - from;
  for (let i = 0; i < end; i++) {
    const value = sound[i]! * height * (i < fadesFrom ? 1 : faded(i - fadesFrom, steps));
    left[from + i]! += value * toLeft;
    right[from + i]! += value * toRight;
  }
}
