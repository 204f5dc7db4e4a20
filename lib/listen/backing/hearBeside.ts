import type { InstrumentFamily } from "../families.js";
import type { HeardOnset, HeardOnsets } from "../onset/heardOnset.js";
import { listenFor } from "../onset/listenFor.js";
import { notePitch, noteStretch } from "../pitch/notePitch.js";
import { slidingBuffer } from "../signal/slidingBuffer.js";
import { cancelBacking } from "./echoCancellation.js";
import type { BackingFound } from "./findBacking.js";
import { type CoveredStretch, decideOnsets, isSure } from "./maskedOnsets.js";
import { measureResidualEcho, type ResidualEcho } from "./residualEcho.js";
import { residualMask } from "./residualMask.js";
import { measureRoomPath, type RoomPath } from "./roomResponse.js";
import type { SoundFeatures } from "./soundFeatures.js";
import { readStretches } from "./stretches.js";

/** What was heard of a player beside a backing. */
export interface HeardBeside {
  readonly heard: HeardOnsets;
  /** The pitch of each onset, where one is clear; none of percussion. */
  readonly pitches: readonly (number | undefined)[];
  readonly undecidable: readonly CoveredStretch[];
  /** Where the backing is, its skew found more finely; `undefined` without one. */
  readonly place: BackingFound | undefined;
  /** How loud the backing was beside everything else, dB; `undefined` when either is silent. */
  readonly bleedDb: number | undefined;
}

/** An onset is reported, and the frames after it are masked, within so many seconds, with those of the notes that could cut it short; our choice, ample. */
const SETTLED = 1;
/** Seconds of the player that are remembered, for pitches: of a settled note and what sounded before, and a piece of the separation. */
const REMEMBERED = 4;

/**
 * The onsets of a player in a recording in which a backing sounds too, found where `place` says: the backing is subtracted along the path
 * from loudspeaker to phone, what is left of it is masked, and onsets it could have made by itself are left out.
 */
export async function hearBeside(
  recording: Opened,
  backing: Opened,
  { place, family }: { place: BackingFound; family: InstrumentFamily },
): Promise<HeardBeside> {
  const way = await wayOf(recording, backing, place);
  const [heard, known] = [await recording(), await backing()];
  if (way === undefined || heard === undefined || known === undefined)
    return { heard: { onsets: [], noiseMs: 0, seconds: 0 }, pitches: [], undecidable: [], place, bleedDb: undefined };
  const { rate } = heard;
  const mask = residualMask(rate, way.leak);
  const listener = listenFor({ family, masking: mask.masking });
  const pitchOf = family === "percussive" ? undefined : notePitch(rate);
  const player = slidingBuffer(REMEMBERED * rate);
  const power = { left: 0, taken: 0 };
  const waiting: HeardOnset[] = [];
  const pitches = new Map<number, number | undefined>();
  const settle = (until: number): void => {
    while (waiting.length > 0 && waiting[0]!.at < until) {
      const onset = waiting.shift()!;
      if (pitchOf === undefined || !isSure(mask.frames, onset)) continue;
      const { at } = onset;
      const next = waiting.find((other) => isSure(mask.frames, other));
      const { from, count } = noteStretch(rate, at, next?.at);
      pitches.set(Math.max(0, at), pitchOf(player.at(from, count).subarray(0, count)));
    }
  };
  for await (const { left, taken } of cancelBacking(heard, known, way.path)) {
    mask.push(taken);
    waiting.push(...listener.push({ rate, channels: [left] }));
    player.push(left);
    settle(player.length() / rate - SETTLED);
    power.taken += powerOf(taken);
    power.left += powerOf(left);
  }
  const all = listener.finish();
  settle(Number.POSITIVE_INFINITY);
  const { onsets, undecidable } = decideOnsets<HeardOnset>(all.onsets, mask.frames);
  return {
    heard: { ...all, onsets },
    pitches: onsets.map(({ at }) => pitches.get(at)),
    undecidable,
    place: { ...place, ...way.path.alignment },
    bleedDb: power.left > 0 && power.taken > 0 ? 10 * Math.log10(power.taken / power.left) : undefined,
  };
}

/** A sound that can be read from its beginning. */
type Opened = SoundFeatures["open"];

/** The way of the backing into the recording, and what is left of it when it is taken out along that way. */
async function wayOf(
  recording: Opened,
  backing: Opened,
  place: BackingFound,
): Promise<{ readonly path: RoomPath; readonly leak: ResidualEcho } | undefined> {
  const [heard, known] = [await recording(), await backing()];
  if (heard === undefined || known === undefined) return undefined;
  const stretches = await readStretches(heard, known, place);
  const path = measureRoomPath(stretches);
  return { path, leak: measureResidualEcho(stretches, path) };
}

function powerOf(samples: Float32Array): number {
  let sum = 0;
  for (let i = 0; i < samples.length; i++) sum += samples[i]! * samples[i]!;
  return sum;
}
