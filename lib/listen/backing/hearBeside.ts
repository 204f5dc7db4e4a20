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

/** The onsets and pitches of a player in a recording that holds a backing too. */
export interface HeardBeside {
  readonly heard: HeardOnsets;
  /** The pitch of each onset, `undefined` where none is clear. Percussion has none. */
  readonly pitches: readonly (number | undefined)[];
  readonly undecidable: readonly CoveredStretch[];
  /** Where the backing is, with a refined skew; `undefined` without a backing. */
  readonly place: BackingFound | undefined;
  /** How loud the backing was beside everything else, dB; `undefined` when either is silent. */
  readonly bleedDb: number | undefined;
}

/** Seconds after which an onset is reported, the frames after it are masked, and the notes that could cut it short are known. Our choice, ample. */
const SETTLED = 1;
/** Seconds of the player that are kept for pitches: a settled note, what sounded before it, and one piece of the echo cancellation. */
const REMEMBERED = 4;

/**
 * The onsets of a player in a recording that holds a backing too, which starts where `place` says. Three steps: echo cancellation (the backing is
 * filtered by the room response and subtracted), masking of the residual echo, and removal of onsets that the residual echo explains.
 */
export async function hearBeside(
  recording: Opened,
  backing: Opened,
  { place, family }: { place: BackingFound; family: InstrumentFamily },
): Promise<HeardBeside> {
  const room = await measureRoom(recording, backing, place);
  const [heard, known] = [await recording(), await backing()];
  if (room === undefined || heard === undefined || known === undefined)
    return { heard: { onsets: [], noiseMs: 0, seconds: 0 }, pitches: [], undecidable: [], place, bleedDb: undefined };
  const { rate } = heard;
  const mask = residualMask(rate, room.residual);
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
  for await (const { left, taken } of cancelBacking(heard, known, room.path)) {
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
    place: { ...place, ...room.path.alignment },
    bleedDb: power.left > 0 && power.taken > 0 ? 10 * Math.log10(power.taken / power.left) : undefined,
  };
}

/** A sound that can be read from its beginning. */
type Opened = SoundFeatures["open"];

/** The room response from backing to recording, and the residual echo after cancellation. */
async function measureRoom(
  recording: Opened,
  backing: Opened,
  place: BackingFound,
): Promise<{ readonly path: RoomPath; readonly residual: ResidualEcho } | undefined> {
  const [heard, known] = [await recording(), await backing()];
  if (heard === undefined || known === undefined) return undefined;
  const stretches = await readStretches(heard, known, place);
  const path = measureRoomPath(stretches);
  return { path, residual: measureResidualEcho(stretches, path) };
}

function powerOf(samples: Float32Array): number {
  let sum = 0;
  for (let i = 0; i < samples.length; i++) sum += samples[i]! * samples[i]!;
  return sum;
}
