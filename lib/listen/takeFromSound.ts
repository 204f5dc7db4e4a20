import type { Result } from "../base/index.js";
import type { Score } from "../schema/index.js";
import {
  type BackingPlace,
  type HeardBeside,
  hearBeside,
  type OpenSound,
  placeOf,
  surveyBoth,
} from "./backing/index.js";
import type { InstrumentFamily } from "./families.js";
import { findOnsets } from "./onset/findOnsets.js";
import { findPitches } from "./pitch/findPitches.js";
import type { SoundTake } from "./soundTake.js";
import { soundTakeOf } from "./soundTakeOf.js";

export interface SoundTakeOptions {
  /** How the instrument's notes begin. */
  readonly family: InstrumentFamily;
  /** What was played aloud, when it was. */
  readonly backing?: OpenSound;
  /** What was to be played: tells bars, and where the take ends. */
  readonly score?: Score;
  /** Seconds of the backing at which its count-in begins; its first sound when left out. */
  readonly backingZero?: number;
  /** Seconds of the recording at which the count-in begins, for a recording without backing; 0 is assumed, with advice, when left out. */
  readonly start?: number;
  /** What was measured of the device; not used when the backing is in the recording, which then tells more. */
  readonly latencyMs?: number;
  readonly latencyStandardErrorMs?: number;
  /** Name of the take. */
  readonly id?: string;
}

/**
 * A take from a recording, which is opened more than once and of which nothing is kept when it is done: onsets with pitch (but for percussion) and velocity, timing noise,
 * and what is known of the delay.
 *
 * With a backing that is found in the recording, time zero is the start of its count-in on its own clock, the backing is taken out, and the
 * latency is 0 with the standard error of sound paths. Without, time zero is `start`, and the latency is that of the options or unknown. A
 * recording in which nothing begins is a take in which nothing was played. Beside a backing, recordings and backings up to 21 minutes are held
 * meanwhile at the rate they are listened to at, 45 kB a second, and of longer ones 14 to 25 kB a second. All problems are advice. Throws as `listenFor` does.
 *
 * @example
 * const heard = await takeFromSound(open, { family: "blown", backing, score });
 * if (heard.ok) assess(score, heard.value.take);
 */
export async function takeFromSound(open: OpenSound, options: SoundTakeOptions): Promise<Result<SoundTake>> {
  const { place: found, firstSound, hear } = await heardWith(open, options);
  const beside = await hear();
  return soundTakeOf(beside, { ...options, place: beside.place ?? found, firstSound });
}

/** Where the backing is in a recording, if one is given, and the hearing that goes with it. */
async function heardWith(
  open: OpenSound,
  { backing, family }: Pick<SoundTakeOptions, "backing" | "family">,
): Promise<{
  readonly place: BackingPlace | undefined;
  readonly firstSound: number | undefined;
  readonly hear: () => Promise<HeardBeside>;
}> {
  const alone = () => hearAlone(open, family);
  if (backing === undefined) return { place: undefined, firstSound: undefined, hear: alone };
  const sounds = await surveyBoth(open, backing);
  if (sounds === undefined) return { place: { found: false }, firstSound: undefined, hear: alone };
  const { recording: recorded, backing: known } = sounds;
  const place = placeOf(recorded, known);
  if (!place.found) return { place, firstSound: undefined, hear: alone };
  return { place, firstSound: known.firstSound, hear: besideOf(recorded.open, known.open, { place, family }) };
}

// Made apart from what was needed to find the place, which is let go before.
function besideOf(...[recording, backing, terms]: Parameters<typeof hearBeside>): () => Promise<HeardBeside> {
  return () => hearBeside(recording, backing, terms);
}

async function hearAlone(open: OpenSound, family: InstrumentFamily): Promise<HeardBeside> {
  const heard = await findOnsets(open(), { family });
  const times = heard.onsets.map(({ at }) => at);
  const pitches = family === "percussive" ? times.map(() => undefined) : await findPitches(open(), times);
  return { heard, pitches, undecidable: [], place: undefined, bleedDb: undefined };
}
