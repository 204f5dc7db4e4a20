import type { Score } from "../../../schema/index.js";
import { gainOf, velocityOf } from "../../velocity.js";
import { panInKit, panOf } from "../stereoPan.js";
import { type Timeline, type Track, timeline } from "../timeline.js";
import { layerOf, variationAt } from "./layers.js";
import { mannerName } from "./manner.js";
import { CHOKES, CLICK, DOWNBEAT_CLICK, STRIKES } from "./percussionKit.js";
import { playedStrike, strikeSound } from "./percussionSynthesis.js";
import { timbreOf } from "./timbres.js";
import { toneSound } from "./toneSynthesis.js";

/** A note as a built-in voice plays it. */
export interface VoicedNote {
  /** Samples from the downbeat of bar 1 to its beginning; negative before it. */
  readonly from: number;
  /** Samples from the downbeat to where its sound has to fade out; `Infinity` when it may ring. */
  readonly stop: number;
  /** Gain, 0 to about 1. */
  readonly height: number;
  /** -1 left to 1 right. */
  readonly pan: number;
  /** Name of its sound: notes of one name at one rate have the same samples. */
  readonly sound: string;
  /** The sound, one channel; made at the first call for any note of this name. */
  readonly samples: () => Float32Array;
}

/** What a part plays, in order of time. */
export interface PartVoices {
  /** Name of the part; `undefined` for the clicks of the count-in. */
  readonly part: string | undefined;
  readonly notes: readonly VoicedNote[];
}

/**
 * The notes of a score by the built-in voices, for a player that puts them together itself: each sound is made when it is first asked for, which
 * takes some milliseconds. `renderSound` adds up the same notes. `rate` is 44100 or 48000.
 *
 * @example
 * scoreVoices(scoreOf(rungs(drill).at(0)), 48000)[0].part === undefined // true: the clicks
 */
export function scoreVoices(score: Score, rate: 44100 | 48000): readonly PartVoices[] {
  const line = timeline(score, rate);
  return [
    { part: undefined, notes: voicedClicks(line) },
    ...line.tracks.map((track) => ({ part: track.name, notes: voicedNotes(track, line) })),
  ];
}

/** The clicks of the count-in. */
export function voicedClicks({ clicks, rate, downbeat, countInKey }: Timeline): readonly VoicedNote[] {
  if (countInKey !== undefined) {
    const sound = `${countInKey}`;
    const samples = madeOnce(() => strikeSound(sound, STRIKES.get(countInKey)!, rate));
    return clicks.map(({ from, isDownbeat }) => ({
      from: from - downbeat,
      stop: Number.POSITIVE_INFINITY,
      height: gainOf(velocityOf({ accent: isDownbeat })),
      pan: 0,
      sound,
      samples,
    }));
  }
  const high = madeOnce(() => strikeSound("downbeat click", DOWNBEAT_CLICK, rate));
  const low = madeOnce(() => strikeSound("click", CLICK, rate));
  return clicks.map(({ from, isDownbeat }) => ({
    from: from - downbeat,
    stop: Number.POSITIVE_INFINITY,
    height: 1,
    pan: 0,
    sound: isDownbeat ? "downbeat click" : "click",
    samples: isDownbeat ? high : low,
  }));
}

/** The notes of a track. */
export function voicedNotes(track: Track, { rate, tracks, tuning, downbeat, phrase }: Timeline): readonly VoicedNote[] {
  const { program } = track;
  const sounds = new Map<string, () => Float32Array>();
  const soundOf = (sound: string, make: () => Float32Array): (() => Float32Array) => {
    const known = sounds.get(sound) ?? madeOnce(make);
    sounds.set(sound, known);
    return known;
  };
  const ends = chokedBy(track);
  return track.notes.map((note, i) => {
    const { key, velocity } = note;
    const layer = layerOf(velocity);
    const from = note.from - downbeat;
    const { variant, level } = variationAt((from / phrase) % 1, key);
    const common = { from, stop: Math.min(note.stop, ends[i]!) - downbeat, height: gainOf(velocity) * level };
    if (program !== undefined) {
      const held = note.to - note.from;
      const sound = `${program}/${key}/${held}/${layer}${mannerName(note.manner)}`;
      const options = { timbre: timbreOf(program), layer, rate, tuning, manner: note.manner };
      const make = (): Float32Array => toneSound(key, held, options);
      return { ...common, pan: panOf(track, tracks), sound, samples: soundOf(sound, make) };
    }
    const strike = STRIKES.get(key)!;
    // Clicks stay alike: a player measures by them.
    const isClick = strike === CLICK || strike === DOWNBEAT_CLICK;
    const sound = isClick ? `${key}` : `${key}/${layer}/${variant}`;
    const played = isClick ? strike : playedStrike(strike, { layer, variant });
    const make = (): Float32Array => strikeSound(sound, played, rate);
    return { ...common, pan: panInKit(key), sound, samples: soundOf(sound, make) };
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

/** A function that makes something at its first call, and gives the same afterwards. */
export function madeOnce<T extends object>(make: () => T): () => T {
  let made: T | undefined;
  return () => {
    made ??= make();
    return made;
  };
}
