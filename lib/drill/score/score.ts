import { fractionText, negate, toNumber, ZERO } from "../../base/index.js";
import { keyText, readKeyPlace, transposePattern } from "../../pattern/index.js";
import type { Score, ScoreTolerance } from "../../schema/index.js";
import { swingText } from "../../time/index.js";
import { doesIn, usualMix } from "../mix.js";
import type { Drill, Settings, Tolerance } from "../model.js";
import type { Rung } from "../rung/rungs.js";
import { settingsText } from "../rung/settings.js";
import { scoreBars } from "./bars.js";
import { openStretches, scoreOpen } from "./open.js";
import { scoreExpected, scoreParts } from "./parts.js";
import { audible, placeSilences, scoreDropouts } from "./silences.js";
import { rounded, type TakeContext, type TakeTime, takeBars, takeLength, takeTime } from "./take.js";

/**
 * The score of a rung in a mix: what sounds and what is expected of the student, as plain data that `schemas/score.schema.json` describes.
 *
 * A take is the count-in, the phrases and the outro. The notes of a part that drops are left out of the silences and end where a silence
 * begins; the notes of the student's part are left out of open bars too, except in a mix in which it plays: what is
 * written there is then an example to listen to. The expected onsets are the same in every mix. Without `mixName`
 * the mix is the rung's own, else the drill's first. The time needed is proportional to the number of notes of the take.
 *
 * Random places of silences are drawn from the drill's seed, the rung and, when it is given, `draw`. Another `draw`, for example the name of
 * the next take, gives other places, so that a player cannot learn them by heart.
 *
 * Throws `RangeError` for a mix the drill does not have; `findMix` checks a name that a person wrote.
 *
 * @example
 * scoreOf(rungs(drill).at(0)).dropouts[0]; // { from: 8.75, to: 10, fromPosition: "7/2", toPosition: "4", ... }
 */
export function scoreOf(rung: Rung, mixName?: string, draw?: string): Score {
  const take = takeOf(rung, mixName, draw);
  return { ...outlineOf(take, draw), parts: scoreParts(take), tolerance: scoreTolerance(rung.drill.tolerance) };
}

/** The score of a rung without any note of its parts, for whoever asks what is expected and when it is silent: a third of the work. */
export function unplayedScore(rung: Rung): Score {
  return { ...outlineOf(takeOf(rung)), parts: [], tolerance: scoreTolerance(rung.drill.tolerance) };
}

interface Take extends TakeContext {
  readonly mix: string;
}

function takeOf({ drill, settings }: Rung, mixName?: string, draw?: string): Take {
  const mix = mixName === undefined ? usualMix(drill, settings) : drill.mixes.find(({ name }) => name === mixName);
  if (mix === undefined)
    throw new RangeError(`the mixes of ${drill.name} are ${drill.mixes.map(({ name }) => name)}, got ${mixName}`);
  const bars = takeBars(drill);
  const time = takeTime(drill, settings, bars);
  return {
    mix: mix.name,
    drill,
    settings,
    pattern: inKey(drill, settings),
    bars,
    time,
    does: doesIn(drill, mix, settings),
    silences: placeSilences(drill, settings, draw),
    open: openStretches(drill, settings, bars),
  };
}

function outlineOf(take: Take, draw?: string): Omit<Score, "parts" | "tolerance"> {
  const { drill, settings, time } = take;
  return {
    version: 1,
    drill: drill.name,
    rung: settingsText(settings),
    mix: take.mix,
    ...(draw === undefined || drill.dropout?.place.at !== "random" ? {} : { draw }),
    phraseSeconds: time.straight(drill.pattern.length),
    duration: time.straight(takeLength(drill)),
    countIn: countInSeconds(drill, time),
    ...(drill.countInVoice === undefined || drill.countIn.n === 0 ? {} : { countInVoice: drill.countInVoice }),
    beat: time.beatAt(ZERO),
    beatUnit: fractionText(drill.beat),
    tempo: toNumber(time.tempi[0]!.tempo),
    ...(time.tempi.length === 1 ? {} : { tempi: scoreTempi(time) }),
    ...(take.pattern.swing === undefined ? {} : { swing: swingText(take.pattern.swing) }),
    key: keyText(take.pattern.key),
    ...(take.pattern.tuning === undefined ? {} : { tuningHz: take.pattern.tuning }),
    bars: scoreBars(take),
    expected: scoreExpected(take),
    dropouts: scoreDropouts(take),
    // The count-in is counted without swing.
    audible: audible(take).map(({ from, to }) => ({
      from: from.n < 0 ? 0 - countInSeconds(drill, time) : time.at(from),
      to: time.at(to),
    })),
    open: scoreOpen(take),
  };
}

/** Seconds of a take of a rung, the count-in included; the same in every mix. */
export function takeSeconds({ drill, settings }: Rung): number {
  const time = takeTime(drill, settings, takeBars(drill));
  return countInSeconds(drill, time) + time.straight(takeLength(drill));
}

function countInSeconds({ countIn }: Drill, time: TakeTime): number {
  return 0 - time.straight(negate(countIn));
}

function scoreTempi(time: TakeTime): NonNullable<Score["tempi"]> {
  return time.tempi.map(({ position, at, tempo }) => ({
    position: fractionText(position),
    at: rounded(at),
    tempo: toNumber(tempo),
    beat: time.beatAt(position),
  }));
}

function inKey({ pattern }: Drill, settings: Settings): Drill["pattern"] {
  if (settings.key === undefined) return pattern;
  const place = readKeyPlace(settings.key);
  if (place === undefined) throw new RangeError(`not a key: ${settings.key}`);
  return transposePattern(pattern, place.key, place.octaves);
}

function scoreTolerance({ drift, landing, steadiness, played }: Tolerance): ScoreTolerance {
  return {
    ...(drift !== undefined && "percent" in drift ? { driftPercent: drift.percent } : {}),
    ...(drift !== undefined && "ms" in drift ? { driftMs: drift.ms } : {}),
    ...(landing === undefined ? {} : { landingMs: landing }),
    ...(steadiness === undefined ? {} : { steadinessMs: steadiness }),
    ...(played === undefined ? {} : { playedShare: toNumber(played) }),
  };
}
