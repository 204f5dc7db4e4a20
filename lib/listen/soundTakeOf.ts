import { type Result, success } from "../base/index.js";
import type { PlayedOnset, Score, Take } from "../schema/index.js";
import type { BackingPlace, HeardBeside } from "./backing/index.js";
import type { SoundTake } from "./soundTake.js";
import { soundTakeAdvice } from "./soundTakeAdvice.js";
import { type ClockOptions, takeClock } from "./takeClock.js";

/** Onsets so long before the count-in or after the end are not of the take, seconds: our choice, longer than anybody is early. */
const AROUND = 2;
/** Limits of a take, as its schema states them. */
const MOST_NOISE_MS = 100;

/** Hertz of the A4 that pitches are heard from (ISO 16); a score may be tuned to another. */
const HEARD_FROM = 440;

/** What was heard as a take: on its clock, without what is not of it, with what is to be said of how it was heard. */
export function soundTakeOf(
  beside: HeardBeside,
  options: Omit<ClockOptions, "score"> & {
    readonly score?: Score;
    readonly id?: string;
    readonly place: BackingPlace | undefined;
  },
): Result<SoundTake> {
  const { score, place } = options;
  const clock = takeClock(place, options);
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

/** Numbers of the bars a stretch of the take touches. */
function barsOf(score: Score, { from, to }: { from: number; to: number }): readonly number[] {
  return score.bars
    .filter(({ at }, i) => at + score.countIn <= to && (score.bars[i + 1]?.at ?? score.duration) + score.countIn > from)
    .map(({ bar }) => bar);
}
