import type { InstrumentFamily } from "../families.js";
import { type HeardNote, noteHearer } from "../noteHearer.js";
import type { HeardOnset, HeardOnsets } from "../onset/heardOnset.js";
import { type Cancelled, cancelBacking } from "./echoCancellation.js";
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
  return hearCancelled(cancelBacking(heard, known, room.path), { ...room, rate: heard.rate, place, family });
}

/**
 * The same while the sound comes in: `pieces` are of the recording after echo cancellation, and `tell` is called with each onset that is the player's
 * for sure, and its pitch, about a second after it sounded.
 */
export async function hearCancelled(
  pieces: AsyncIterable<Cancelled>,
  { rate, path, residual, place, family, tell }: Room & HearingTerms,
): Promise<HeardBeside> {
  const mask = residualMask(rate, residual);
  const notes = noteHearer({ rate, family, masking: mask.masking, isSure: (onset) => isSure(mask.frames, onset) });
  const power = { left: 0, taken: 0 };
  for await (const { left, taken } of pieces) {
    mask.push(taken);
    for (const note of notes.push(left)) tell?.(note);
    power.taken += powerOf(taken);
    power.left += powerOf(left);
  }
  const { heard: all, pitchOf } = notes.finish();
  const { onsets, undecidable } = decideOnsets<HeardOnset>(all.onsets, mask.frames);
  return {
    heard: { ...all, onsets },
    pitches: onsets.map(pitchOf),
    undecidable,
    place: { ...place, ...path.alignment },
    bleedDb: power.left > 0 && power.taken > 0 ? 10 * Math.log10(power.taken / power.left) : undefined,
  };
}

interface HearingTerms {
  readonly rate: number;
  readonly place: BackingFound;
  readonly family: InstrumentFamily;
  readonly tell?: (note: HeardNote) => void;
}

/** How the backing sounds in a room, and what echo cancellation leaves of it. */
export interface Room {
  readonly path: RoomPath;
  readonly residual: ResidualEcho;
}

/** A sound that can be read from its beginning. */
type Opened = SoundFeatures["open"];

/** The room response from backing to recording, and the residual echo after cancellation. */
export async function measureRoom(recording: Opened, backing: Opened, place: BackingFound): Promise<Room | undefined> {
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
