import type { ReadyRecording } from "./model.js";
import { quietBefore } from "./quietBefore.js";

/** A stretch of a recording in samples: `from` included, `to` excluded, `start` the sample of the recording heard at `from`. */
export interface LaidStretch {
  readonly from: number;
  readonly to: number;
  readonly start: number;
  readonly recording: ReadyRecording;
  readonly gain: number;
}

/** Seconds over which a recording goes out before a silence, and over which one gives way to the next: our choice, shorter than the 5 ms in which no stroke is missed, and long enough not to click. */
const GOES_OUT = 0.004;
/** Seconds over which a recording comes in after a silence, from the very sample it returns on: our choice, shorter than the attack of any drum. */
const COMES_IN = 0.001;

/** What of a recording is heard, in one go: from sample `first` of the mix to before `end`, with how many samples it comes in and goes out. */
export interface LaidSound extends Pick<LaidStretch, "recording" | "gain"> {
  readonly first: number;
  readonly end: number;
  readonly comesIn: number;
  readonly goesOut: number;
  /** The sample of the recording that is heard at `first`. */
  readonly start: number;
}

/**
 * What is heard of the stretches of a part, in order of time. Before a silence the recording goes out within 4 ms, and is digital silence from its first sample on; it returns on the
 * last one, within 1 ms. Where one stretch follows on another they give way to one another before the bar line, so that the stroke on it is whole. A stroke that was played
 * up to 30 ms before the beat belongs to what comes next: the recording goes out before it.
 *
 * `round`: samples after which the whole begins again, where it is to be played round and round.
 */
export function laidSounds(
  stretches: readonly LaidStretch[],
  { rate, round }: { readonly rate: number; readonly round?: number | undefined },
): readonly LaidSound[] {
  const joined = joinedStretches(stretches);
  const out = Math.round(GOES_OUT * rate);
  const isRound = round !== undefined && joined.length > 0 && joined[0]!.from === 0 && joined.at(-1)!.to === round;
  const ends = joined.map(
    ({ to, start, from, recording }) => to - quietBefore(recording.channels, start + to - from, rate),
  );
  return joined.map(({ from, start, recording, gain }, i) => {
    const before = joined[i - 1];
    const follows = before !== undefined && before.to === from;
    const last = follows ? ends[i - 1]! : isRound && i === 0 ? ends.at(-1)! - round : undefined;
    const begins = last === undefined ? undefined : Math.max(last - out, from - start);
    const comesIn = begins === undefined ? Math.round(COMES_IN * rate) : Math.max(1, (last as number) - begins);
    const first = begins ?? from;
    return { first, end: ends[i]!, comesIn, goesOut: out, start: start + first - from, recording, gain };
  });
}

/** How loud a sample of a sound is, 0 to 1: a quarter of a sine at both ends, so that two that give way to one another stay as loud as one. */
export function heightAt(
  at: number,
  { first, end, comesIn, goesOut }: Pick<LaidSound, "first" | "end" | "comesIn" | "goesOut">,
): number {
  const rise = at - first < comesIn ? Math.sin(((at - first + 0.5) / comesIn) * (Math.PI / 2)) : 1;
  const fall = end - at <= goesOut ? Math.sin(((end - at - 0.5) / goesOut) * (Math.PI / 2)) : 1;
  return rise * fall;
}

/** Adds the stretches of a part to a mix; `origin` is the sample of the mix from which all are counted. */
export function layRecording(
  bus: readonly [Float32Array, Float32Array],
  stretches: readonly LaidStretch[],
  { rate, origin, round }: { readonly rate: number; readonly origin: number; readonly round: number | undefined },
): void {
  for (const sound of laidSounds(stretches, { rate, round }))
    for (const [c, target] of bus.entries()) {
      const { first, end, start, recording, gain } = sound;
      const samples = recording.channels[c]!;
      for (let at = first; at < end; at++) {
        const sample = samples[start + at - first];
        if (sample === undefined) continue;
        const place = origin + (at < 0 && round !== undefined ? at + round : at);
        if (place >= 0 && place < target.length) target[place]! += sample * gain * heightAt(at, sound);
      }
    }
}

/** Stretches that go on where the one before ends, in the recording too, as one. */
function joinedStretches(stretches: readonly LaidStretch[]): readonly LaidStretch[] {
  const joined: LaidStretch[] = [];
  for (const next of stretches.filter(({ from, to }) => to > from)) {
    const last = joined.at(-1);
    const goesOn =
      last !== undefined &&
      last.to === next.from &&
      last.recording === next.recording &&
      Math.abs(last.start + last.to - last.from - next.start) <= 1;
    if (goesOn) joined[joined.length - 1] = { ...last, to: next.to };
    else joined.push(next);
  }
  return joined;
}
