import type { SoundStream } from "../../formats/sound/index.js";
import { halvedBy, halving } from "../halve.js";
import { firstSound } from "./firstSound.js";
import { type HeldSound, heldSound } from "./heldSound.js";
import { type Novelty, noveltyOf } from "./novelty.js";
import { openListening, readerOf, type SoundReader } from "./reader.js";
import { rowOf } from "./row.js";

/** A recording or a backing, to be opened as often as it has to be read. */
export type OpenSound = () => SoundStream;

/** Sounds up to so many seconds are held at the rate they are listened to at, 45 kB for a second; longer ones are opened again. Our choice. */
const HELD = 21 * 60;
/** Rates at which novelty is taken, and at which places are refined, hertz: halved until below. Our choice: no band of either lies higher. */
const NOVELTY_BELOW = 20_000;
const LOW_BELOW = 11_000;

/** What going through a sound once tells. */
export interface Surveyed {
  readonly seconds: number;
  readonly novelty: Novelty;
  /** The whole sound at a low rate (samples per second). */
  readonly low: { readonly rate: number; readonly sound: HeldSound };
  /** Seconds of the first sample that is clearly heard; `undefined` in silence. */
  readonly firstSound: number | undefined;
  /** The sound again, from its beginning. */
  readonly open: () => Promise<SoundReader | undefined>;
}

/** Goes through a recording and a backing once; `undefined` when either holds no sample. */
export async function surveyBoth(
  recording: OpenSound,
  backing: OpenSound,
): Promise<{ readonly recording: Surveyed; readonly backing: Surveyed } | undefined> {
  const heard = await survey(recording, HELD);
  // Beside a long recording there is no room for the backing.
  const known = heard && (await survey(backing, heard.seconds > HELD ? 0 : HELD));
  return heard && known && { recording: heard, backing: known };
}

/**
 * Goes through a sound once; `undefined` when it holds no sample. Holds 11 to 22 kB for a second, and the whole when it is no longer than so many
 * seconds.
 */
async function survey(open: OpenSound, longest: number): Promise<Surveyed | undefined> {
  let meter: ReturnType<typeof meterFor> | undefined;
  for await (const row of rowOf(open())) {
    meter ??= meterFor(row.rate, { full: row.full.rate, longest });
    meter.push(row.samples, row.full.samples);
  }
  return meter?.finish(open);
}

function meterFor(rate: number, { full, longest }: { readonly full: number; readonly longest: number }) {
  const [noveltyHalvings, lowHalvings] = [halvings(rate, NOVELTY_BELOW), halvings(rate, LOW_BELOW)];
  const first = halvedBy(halving, noveltyHalvings);
  const second = halvedBy(halving, lowHalvings - noveltyHalvings);
  const novelty = noveltyOf(rate / 2 ** noveltyHalvings);
  const low = heldSound();
  const begins = firstSound();
  let held: HeldSound | undefined = heldSound();
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
    finish: (open: OpenSound): Surveyed | undefined => {
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

// Made apart from what else going through the sound needed, which is let go sooner.
function reopening(open: OpenSound): Surveyed["open"] {
  return () => openListening(open());
}

function rereading(rate: number, held: HeldSound): Surveyed["open"] {
  return () => Promise.resolve(readerOf(rate, held));
}

function halvings(rate: number, below: number): number {
  return Math.max(0, Math.floor(Math.log2(rate / below)) + 1);
}
