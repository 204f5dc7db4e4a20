import { success } from "../base/index.js";
import type { PlayedOnset, Score, Take } from "../schema/index.js";
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
import type { Result } from "./problem.js";
import type { SoundTake } from "./soundTake.js";
import { soundTakeAdvice } from "./soundTakeAdvice.js";
import { takeClock } from "./takeClock.js";

/** Onsets so long before the count-in or after the end are not of the take, seconds: our choice, longer than anybody is early. */
const AROUND = 2;
/** Limits of a take, as its schema states them. */
const MOST_NOISE_MS = 100;

/** Hertz of the A4 that pitches are heard from (ISO 16); a score may be tuned to another. */
const HEARD_FROM = 440;

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
  const { score } = options;
  const { place: found, firstSound, hear } = await heardWith(open, options);
  const beside = await hear();
  const place = beside.place ?? found;
  const clock = takeClock(place, { ...options, firstSound });
  const last = score === undefined ? Number.POSITIVE_INFINITY : score.countIn + score.duration + AROUND;
  const isOfTake = ({ at }: { at: number }): boolean => {
    const seconds = clock.toTake(at);
    return place?.found !== true || (seconds >= -AROUND && seconds <= last);
  };
  const tunedUp = score?.tuningHz === undefined ? 0 : 12 * Math.log2(score.tuningHz / HEARD_FROM);
  const pitches = beside.pitches.filter((_, i) => isOfTake(beside.heard.onsets[i]!));
  const onsets = beside.heard.onsets.filter(isOfTake);
  const played: readonly PlayedOnset[] = onsets.map(({ at, velocity }, i) => ({
    at: clock.toTake(at),
    ...(pitches[i] === undefined ? {} : { pitch: pitches[i] - tunedUp }),
    velocity,
  }));
  const take: Take = {
    version: 1,
    ...(options.id === undefined ? {} : { id: options.id }),
    onsets: played,
    zero: "count-in",
    ...clock.latency,
    motorFloorMs: Math.min(MOST_NOISE_MS, beside.heard.noiseMs),
  };
  const undecidable = beside.undecidable
    .map(({ from, to }) => ({ from: clock.toTake(from), to: clock.toTake(to) }))
    .filter(({ from, to }) => to >= 0 && from <= last)
    .map((stretch) => (score === undefined ? stretch : { ...stretch, bars: barsOf(score, stretch) }));
  const sound: SoundTake = {
    take,
    onsets,
    seconds: beside.heard.seconds,
    ...(place === undefined ? {} : { backing: place }),
    ...(beside.bleedDb === undefined ? {} : { bleedDb: beside.bleedDb }),
    undecidable,
  };
  return success(sound, soundTakeAdvice(sound, clock));
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

/** Numbers of the bars a stretch of the take touches. */
function barsOf(score: Score, { from, to }: { from: number; to: number }): readonly number[] {
  return score.bars
    .filter(({ at }, i) => at + score.countIn <= to && (score.bars[i + 1]?.at ?? score.duration) + score.countIn > from)
    .map(({ bar }) => bar);
}
