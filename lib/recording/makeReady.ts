import type { SoundStream } from "../formats/sound/index.js";
import { findOnsets, resampledTo } from "../listen/index.js";
import { attacksLaidOver } from "./attacksLaidOver.js";
import type { Rate, ReadyRecording, RecordedSound, RecordingNeed, Stretcher } from "./model.js";

/**
 * Makes a recording ready for a score: the seconds that are wanted, stretched, moved in pitch, at the rate of the rendering. The stretcher is not asked where nothing is to be
 * stretched. Of more than two channels the first two are taken; one is heard on both sides.
 *
 * @example
 * const need = { file: "kit.wav", sha256: "...", from: 0, to: 0.5, speed: 1, semitones: 0, isStruck: true };
 * (await makeReady(stream, need, { rate: 44100, stretch: (sound) => sound })).channels[0].length // 22050
 */
export async function makeReady(
  sound: SoundStream,
  need: RecordingNeed,
  { rate, stretch }: { readonly rate: Rate; readonly stretch: Stretcher },
): Promise<ReadyRecording> {
  const { sha256, speed, semitones, isStruck } = need;
  const wanted = await secondsOf(sound, need);
  const from = Math.round(need.from * wanted.rate) / wanted.rate;
  // Read faster, what was made longer is higher and as long as it must be.
  const higher = 2 ** (semitones / 12);
  const stretched = await stretchedTo(wanted, speed / higher, { isStruck: isStruck && semitones === 0, stretch });
  const [left, right] = stretched.channels;
  const read = stretched.rate * higher;
  const channels =
    read === rate ? stretched.channels : ([resampledTo(left, read, rate), resampledTo(right, read, rate)] as const);
  return { sha256, speed, semitones, from, rate, channels };
}

/** At another speed, with the attacks of drums laid over. */
async function stretchedTo(
  sound: RecordedSound,
  speed: number,
  { isStruck, stretch }: { readonly isStruck: boolean; readonly stretch: Stretcher },
): Promise<RecordedSound> {
  if (speed === 1) return sound;
  const made = stretch(sound, { speed, isStruck });
  if (!isStruck) return made;
  const { onsets } = await findOnsets(streamOf(sound), { family: "percussive" });
  return attacksLaidOver(made, sound, { strokes: onsets.map(({ at }) => at), speed });
}

async function* streamOf(sound: RecordedSound): SoundStream {
  yield sound;
}

/** The seconds of a sound from `from` to `to`, silence where it has none. */
async function secondsOf(sound: SoundStream, { from, to }: RecordingNeed): Promise<RecordedSound> {
  let made: { readonly rate: number; readonly channels: readonly [Float32Array, Float32Array] } | undefined;
  let at = 0;
  for await (const { rate, channels } of sound) {
    made ??= { rate, channels: [silence(from, to, rate), silence(from, to, rate)] };
    const first = Math.round(from * rate);
    for (const [c, target] of made.channels.entries()) copy(channels[c] ?? channels[0]!, at - first, target);
    at += channels[0]!.length;
    if (at - first >= made.channels[0].length) break;
  }
  return made ?? { rate: 44100, channels: [silence(from, to, 44100), silence(from, to, 44100)] };
}

function silence(from: number, to: number, rate: number): Float32Array {
  return new Float32Array(Math.max(0, Math.round(to * rate) - Math.round(from * rate)));
}

/** Copies samples to a place that may lie partly outside. */
function copy(samples: Float32Array, at: number, target: Float32Array): void {
  const first = Math.max(0, -at);
  const last = Math.min(samples.length, target.length - at);
  if (last > first) target.set(samples.subarray(first, last), at + first);
}
