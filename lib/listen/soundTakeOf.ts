import { success } from "../base/index.js";
import type { PlayedOnset, Score, Take } from "../schema/index.js";
import type { BackingPlace, HeardBeside } from "./backing/index.js";
import type { HeardOnset } from "./onset/heardOnset.js";
import { wholeNoiseMs } from "./onset/onsetList.js";
import { playersOnsets } from "./playersOnsets.js";
import type { Result } from "./problem.js";
import type { SoundTake } from "./soundTake.js";
import { soundTakeAdvice } from "./soundTakeAdvice.js";
import { type ClockOptions, type TakeClock, takeClock } from "./takeClock.js";

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
  const heard = beside.heard.onsets.flatMap((onset, i) => {
    const pitch = beside.pitches[i];
    return isOfTake(onset) ? [{ onset, pitch: pitch === undefined ? undefined : pitch - tunedUp }] : [];
  });
  const kept = score === undefined ? heard : playersOf(heard, score, clock.toTake);
  const onsets = kept.map(({ onset }) => onset);
  const played: readonly PlayedOnset[] = kept.map(({ onset: { at, velocity }, pitch }) => ({
    at: clock.toTake(at),
    ...(pitch === undefined ? {} : { pitch }),
    velocity,
  }));
  const take: Take = {
    version: 1,
    ...(options.id === undefined ? {} : { id: options.id }),
    onsets: played,
    zero: "count-in",
    ...clock.latency,
    motorFloorMs: Math.min(MOST_NOISE_MS, kept.length < heard.length ? wholeNoiseMs(onsets) : beside.heard.noiseMs),
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
    others: heard.length - kept.length,
    undecidable,
  };
  return success(sound, soundTakeAdvice(sound, clock));
}

interface HeardNote {
  readonly onset: HeardOnset;
  readonly pitch: number | undefined;
}

/** Without what something else in the room began. */
function playersOf(heard: readonly HeardNote[], score: Score, toTake: TakeClock["toTake"]): readonly HeardNote[] {
  const onsets = heard.map(({ onset }) => ({ ...onset, seconds: toTake(onset.at) - score.countIn }));
  const pitches = heard.map(({ pitch }) => pitch);
  return playersOnsets(onsets, pitches, score).map((index) => heard[index]!);
}

/** Numbers of the bars a stretch of the take touches. */
function barsOf(score: Score, { from, to }: { from: number; to: number }): readonly number[] {
  return score.bars
    .filter(({ at }, i) => at + score.countIn <= to && (score.bars[i + 1]?.at ?? score.duration) + score.countIn > from)
    .map(({ bar }) => bar);
}
