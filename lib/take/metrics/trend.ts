import type { Message, Phrase, Worded } from "../../base/index.js";
import type { Finding } from "../../schema/index.js";
import { english, type Speaker, speakerOf, trendInEnglish } from "../../words/index.js";
import { rounded } from "../rounding.js";

/** Apart from what is said of one take, because who judges takes need not have it. */
const say: Speaker<"trend"> = /* @__PURE__ */ speakerOf(english, trendInEnglish);

/** Whether a player's drift in silences of one length is changing over takes. */
export interface DriftTrend {
  /** Length of the silences, seconds. */
  readonly silence: number;
  /** Takes in which it was measured. */
  readonly takes: number;
  /** Drift at the first and at the last of them on the fitted line, per cent of tempo. */
  readonly first: number;
  readonly last: number;
  /** Change for each take, per cent of tempo, with its 90 % interval; positive: towards dragging. */
  readonly perTake: number;
  readonly interval: readonly [low: number, high: number];
  /** `towards` the tempo, `away` from it, or `no change` that this many takes could tell. */
  readonly direction: "towards" | "away" | "no change";
  /** The trend in one plain sentence. */
  readonly sentence: string;
  /** The same before it is worded. */
  readonly message: Message;
}

type Told = Omit<DriftTrend, "sentence" | "message">;

// Fewest takes a trend is fitted to (our choice: with two, every difference looks like one).
const FEWEST_TAKES = 3;

/**
 * Trends of drift over takes, one for each length of silence, shortest first; lengths measured in fewer than three takes are left out.
 *
 * A weighted straight line through the takes' mean drifts: each weighs 1 / (its squared standard error + the variance between takes), the
 * latter by the method of moments about the line (DerSimonian & Laird 1986, Controlled Clinical Trials 7, 177-188, extended to a regression;
 * from memory), the interval by Student's t with n - 2 degrees of freedom.
 *
 * @param findings in the order in which the takes were played
 *
 * @example
 * driftTrends([finding]).length // 0
 */
export function driftTrends(findings: readonly Finding[]): DriftTrend[] {
  return [...pointsByLength(findings)]
    .filter(([, points]) => points.length >= FEWEST_TAKES)
    .sort(([a], [b]) => a - b)
    .map(([silence, points]) => trendOf(silence, points));
}

/** One take's drift in silences of one length, per cent of tempo. */
interface Point {
  readonly take: number;
  readonly drift: number;
  readonly variance: number;
}

/** Lengths that differ by less than a hundredth of a second are one. */
function pointsByLength(findings: readonly Finding[]): Map<number, Point[]> {
  const points = new Map<number, Point[]>();
  findings.forEach(({ dropouts }, take) => {
    const measured = new Map<number, { drift: number; variance: number }[]>();
    for (const { from, to, driftPercent, standardErrorMs } of dropouts) {
      if (typeof driftPercent !== "number" || typeof standardErrorMs !== "number") continue;
      const length = Math.round((to - from) * 100) / 100;
      const variance = (standardErrorMs / (10 * (to - from))) ** 2;
      measured.set(length, [...(measured.get(length) ?? []), { drift: driftPercent, variance }]);
    }
    for (const [length, several] of measured) {
      const weight = several.reduce((sum, { variance }) => sum + 1 / variance, 0);
      const drift = several.reduce((sum, one) => sum + one.drift / one.variance, 0) / weight;
      points.set(length, [...(points.get(length) ?? []), { take, drift, variance: 1 / weight }]);
    }
  });
  return points;
}

interface Line {
  readonly slope: number;
  readonly centre: number;
  readonly height: number;
  /** Weighted sum of squares of x about its centre. */
  readonly across: number;
  /** Weighted sum of squares left over. */
  readonly left: number;
}

function lineThrough(points: readonly Point[], between: number): Line {
  const weights = points.map(({ variance }) => 1 / (variance + between));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const weighted = (value: (point: Point) => number): number =>
    points.reduce((sum, point, k) => sum + weights[k]! * value(point), 0);
  const centre = weighted(({ take }) => take) / total;
  const height = weighted(({ drift }) => drift) / total;
  const across = weighted(({ take }) => (take - centre) ** 2);
  const slope = weighted(({ take, drift }) => (take - centre) * drift) / across;
  const left = weighted(({ take, drift }) => (drift - height - slope * (take - centre)) ** 2);
  return { slope, centre, height, across, left };
}

function trendOf(silence: number, points: readonly Point[]): DriftTrend {
  const between = varianceBetween(points);
  const { slope, centre, height, across, left } = lineThrough(points, between);
  const freedom = points.length - 2;
  // Never less than the takes' own errors allow; more when they lie further from the line than those errors and the variance found explain.
  const error = Math.sqrt(Math.max(1, left / freedom) / across);
  const half = NINETY_BY_FREEDOM[Math.min(freedom, NINETY_BY_FREEDOM.length) - 1]! * error;
  const at = (take: number): number => height + slope * (take - centre);
  const [first, last] = [at(points[0]!.take), at(points.at(-1)!.take)];
  const changes = Math.abs(slope) > half;
  const direction = !changes ? "no change" : Math.abs(last) < Math.abs(first) ? "towards" : "away";
  const trend = {
    silence,
    takes: points.length,
    first: rounded(first, 3),
    last: rounded(last, 3),
    perTake: rounded(slope, 4),
    interval: [rounded(slope - half, 4), rounded(slope + half, 4)],
    direction,
  } as const;
  const { says, message } = sentenceOf(trend);
  return { ...trend, sentence: says, message };
}

/** Variance of the takes about the line beyond their own errors, 0 or more: moments, with the freedom two fitted values take up. */
function varianceBetween(points: readonly Point[]): number {
  const { left, centre, across } = lineThrough(points, 0);
  const weights = points.map(({ variance }) => 1 / variance);
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  // Trace of the residual-making matrix times the identity: sum of w (1 - leverage).
  const trace = points.reduce((sum, { take }, k) => {
    const leverage = weights[k]! / total + (weights[k]! * (take - centre) ** 2) / across;
    return sum + weights[k]! * (1 - leverage);
  }, 0);
  return Math.max(0, (left - (points.length - 2)) / trace);
}

// 95 % points of Student's t for 1, 2, ... degrees of freedom (standard tables; from memory, checked in the tests), the last for 30 and more.
const NINETY_BY_FREEDOM = [
  6.314, 2.92, 2.353, 2.132, 2.015, 1.943, 1.895, 1.86, 1.833, 1.812, 1.796, 1.782, 1.771, 1.761, 1.753, 1.746, 1.74,
  1.734, 1.729, 1.725, 1.721, 1.717, 1.714, 1.711, 1.708, 1.706, 1.703, 1.701, 1.699, 1.697,
] as const;

function sentenceOf({ silence, takes, first, last, interval, direction }: Told): Worded {
  return say("trend.moved", {
    direction: direction === "no change" ? "no-change" : direction,
    takes,
    seconds: silence,
    first: driftPhrase(first),
    last: driftPhrase(last),
    low: changePhrase(interval[0]),
    high: changePhrase(interval[1]),
  });
}

function driftPhrase(percent: number): Phrase {
  return say("trend.drift", { percent: Math.abs(percent), way: percent < 0 ? "fast" : "slow" }).message;
}

function changePhrase(percent: number): Phrase {
  return say("trend.drift-change", { percent: Math.abs(percent), way: percent < 0 ? "faster" : "slower" }).message;
}
