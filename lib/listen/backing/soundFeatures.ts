import type { SoundStream } from "../../formats/sound/index.js";
import { type PackedSound, packedSound } from "../signal/blockFloatingPoint.js";
import { cascade, halfBandDecimator } from "../signal/decimator.js";
import { monoStream } from "../signal/monoStream.js";
import { openReader, packedReader, type SoundReader } from "../signal/soundReader.js";
import { type NoveltyCurves, noveltyCurves } from "./noveltyCurves.js";

/** A recording or a backing, to be opened as often as it has to be read. */
export type OpenSound = () => SoundStream;

/** Sounds up to so many seconds are held at the rate they are listened to at, 45 kB for a second; longer ones are opened again. Our choice. */
const HELD = 21 * 60;
/** Highest rates for novelty curves and for the low-rate copy, hertz: the rate is halved until it is below. Our choice: neither uses higher bands. */
const NOVELTY_BELOW = 20_000;
const LOW_BELOW = 11_000;

/** Features of a sound, computed in one pass. */
export interface SoundFeatures {
  readonly seconds: number;
  readonly novelty: NoveltyCurves;
  /** The whole sound at a low rate (samples per second). */
  readonly low: { readonly rate: number; readonly sound: PackedSound };
  /** Seconds of the first sample that is clearly heard; `undefined` in silence. */
  readonly firstSound: number | undefined;
  /** The sound again, from its beginning. */
  readonly open: () => Promise<SoundReader | undefined>;
}

/** Computes the features of a recording and a backing, one pass each; `undefined` when either holds no sample. */
export async function surveyBoth(
  recording: OpenSound,
  backing: OpenSound,
): Promise<{ readonly recording: SoundFeatures; readonly backing: SoundFeatures } | undefined> {
  const heard = await survey(recording, HELD);
  // Beside a long recording there is no room for the backing.
  const known = heard && (await survey(backing, heard.seconds > HELD ? 0 : HELD));
  return heard && known && { recording: heard, backing: known };
}

/**
 * Computes the features of a sound in one pass; `undefined` when it holds no sample. Keeps 11 to 22 kB for a second, and the whole sound when it is
 * no longer than `longest` seconds.
 */
export async function survey(open: OpenSound, longest: number = HELD): Promise<SoundFeatures | undefined> {
  let meter: ReturnType<typeof meterFor> | undefined;
  for await (const { rate, fullRate, samples, full } of monoStream(open())) {
    meter ??= meterFor(rate, { full: fullRate, longest });
    meter.push(samples, full);
  }
  return meter?.finish(open);
}

function meterFor(rate: number, { full, longest }: { readonly full: number; readonly longest: number }) {
  const [noveltyHalvings, lowHalvings] = [halvings(rate, NOVELTY_BELOW), halvings(rate, LOW_BELOW)];
  const first = cascade(halfBandDecimator, noveltyHalvings);
  const second = cascade(halfBandDecimator, lowHalvings - noveltyHalvings);
  const novelty = noveltyCurves(rate / 2 ** noveltyHalvings);
  const low = packedSound();
  const begins = firstSound();
  let held: PackedSound | undefined = packedSound();
  let count = 0;
  const add = (middle: Float32Array): void => {
    novelty.push(middle);
    low.push(second.push(middle));
  };
  return {
    push: (samples: Float32Array, whole: Float32Array): void => {
      count += whole.length;
      begins.push(whole);
      held?.push(samples);
      if (count > longest * full) held = undefined;
      add(first.push(samples));
    },
    finish: (open: OpenSound): SoundFeatures | undefined => {
      if (count === 0) return undefined;
      add(first.finish());
      low.push(second.finish());
      const sample = begins.sample();
      return {
        seconds: count / full,
        novelty: novelty.finish(),
        low: { rate: rate / 2 ** lowHalvings, sound: low },
        firstSound: sample === undefined ? undefined : sample / full,
        open: held === undefined ? reopening(open) : rereading(rate, held),
      };
    },
  };
}

// Functions of their own: a closure inside `meterFor` would keep the memory of the whole pass.
function reopening(open: OpenSound): SoundFeatures["open"] {
  return () => openReader(open());
}

function rereading(rate: number, held: PackedSound): SoundFeatures["open"] {
  return () => Promise.resolve(packedReader(rate, held));
}

function halvings(rate: number, below: number): number {
  return Math.max(0, Math.floor(Math.log2(rate / below)) + 1);
}

/** A sound has begun when it passes this share of the loudest sample (-34 dB): dither and the ringing of codecs before it stay below. */
const BEGUN = 0.02;
/** Samples are remembered that are louder than all before by this factor, so that a sound that swells fills no memory; our choice. */
const LOUDER = 1.005;

/** Finds the first sample that is clearly heard: the end of the leading silence. */
interface FirstSound {
  readonly push: (samples: Float32Array) => void;
  /** Number of that sample; `undefined` in silence. */
  readonly sample: () => number | undefined;
}

/** What is clearly heard is known when the loudest sample is: those louder than all before them are remembered until then. */
function firstSound(): FirstSound {
  const louder: { readonly level: number; readonly sample: number }[] = [];
  let next = 0;
  let count = 0;
  let peak = 0;
  return {
    push: (samples) => {
      for (let i = 0; i < samples.length; i++) {
        const level = Math.abs(samples[i]!);
        if (level > peak) peak = level;
        if (level <= next) continue;
        louder.push({ level, sample: count + i });
        next = LOUDER * level;
      }
      count += samples.length;
    },
    sample: () => louder.find(({ level }) => level >= BEGUN * peak)?.sample,
  };
}
