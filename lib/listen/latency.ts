import { failure, problemsOf, type Result, success } from "../base/index.js";
import { median } from "../take/index.js";
import { listenCodes } from "./codes.js";
import { sayProblem } from "./say.js";

const problem = problemsOf(listenCodes);

/** The clicks a device is measured with: steady, so that one can clap along. */
export const CALIBRATION_CLICKS = {
  /** Seconds before the first. */
  first: 1,
  /** Seconds from one to the next: 100 a minute. */
  apart: 0.6,
  count: 48,
} as const;

/** How a device was measured: its output led to its input, or somebody clapping along. */
export type CalibrationWay = "loop" | "clap";

/** What was measured of a device. */
export interface Latency {
  /** Positive: onsets arrive late. */
  readonly latencyMs: number;
  /** Standard deviation of the delay of a take, milliseconds. */
  readonly latencyStandardErrorMs: number;
  /** Onsets it was found from, in all recordings. */
  readonly onsets: number;
}

/**
 * Delays that are told apart, seconds from the earliest on: as clicks are steady, others are these and a whole interval more. Our choice:
 * people clap early by up to a tenth of a second, and wireless headphones are late by up to 0.3 s.
 */
const EARLIEST = -0.15;
/** Width of the densest cluster of delays, seconds; our choice, four standard deviations of an unpractised clapper. */
const CLUSTER = 0.12;
/** Onsets in the cluster, and their share of all; our choices: fewer are chance. */
const LEAST = { onsets: 12, share: 0.6 } as const;
/** A single recording does not show how the delay differs from take to take, ms: what the take schema assumes. */
const BETWEEN_TAKES_MS = 3;
/** People's own habitual lead or lag, which clapping cannot tell from the device's, ms; our choice within the 20 to 60 ms of the literature on tapping. */
const CLAPPERS_MS = 20;

/**
 * Latency of a recording device and its standard error, from onsets heard (seconds from the start of each recording) while the clicks of `CALIBRATION_CLICKS` were
 * played, both started together.
 *
 * The latency is the mean over recordings of the median delay in the densest cluster; the standard error is the standard deviation between recordings (3 ms for one recording)
 * with what the deviations within them leave open. LATENCY_UNCLEAR when the onsets of a recording do not cluster.
 *
 * @example latencyFrom([[1.012, 1.612, 2.212]], { way: "loop" })
 */
export function latencyFrom(
  recordings: readonly (readonly number[])[],
  { way }: { readonly way: CalibrationWay },
): Result<Latency> {
  const clusters = recordings.map(clusterOf);
  const unclear = clusters.findIndex((cluster, i) => !isEnough(cluster, recordings[i]!));
  if (recordings.length === 0 || unclear >= 0) {
    const message = sayProblem("listen-problem.latency-unclear", {
      least: LEAST.onsets,
      percent: 100 * LEAST.share,
      found: String(clusters[unclear]?.length ?? 0),
      of: String(recordings[unclear]?.length ?? 0),
      recording: unclear + 1,
    });
    return failure(problem("LATENCY_UNCLEAR", message, {}, sayProblem("listen-problem.latency-unclear-remedy")));
  }
  const medians = clusters.map(median);
  const latency = mean(medians);
  const within = mean(clusters.map((cluster, i) => variance(cluster, medians[i]!) / cluster.length));
  const between = medians.length === 1 ? (BETWEEN_TAKES_MS / 1000) ** 2 : variance(medians, latency);
  const person = way === "clap" ? (CLAPPERS_MS / 1000) ** 2 : 0;
  return success({
    latencyMs: 1000 * latency,
    latencyStandardErrorMs: 1000 * Math.sqrt(between + within + person),
    onsets: clusters.reduce((sum, { length }) => sum + length, 0),
  });
}

/** The delays that lie nearest together, in order. */
function clusterOf(onsets: readonly number[]): readonly number[] {
  const { first, apart, count } = CALIBRATION_CLICKS;
  const delays = onsets
    .filter((at) => at >= first + EARLIEST && at < first + EARLIEST + count * apart)
    .map((at) => ((at - first - EARLIEST) % apart) + EARLIEST)
    .sort((a, b) => a - b);
  let best: readonly number[] = [];
  for (let from = 0, to = 0; from < delays.length; from++) {
    while (to < delays.length && delays[to]! <= delays[from]! + CLUSTER) to++;
    if (to - from > best.length) best = delays.slice(from, to);
  }
  return best;
}

function isEnough(cluster: readonly number[], onsets: readonly number[]): boolean {
  return cluster.length >= LEAST.onsets && cluster.length >= LEAST.share * onsets.length;
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

/** Sample variance about a centre. */
function variance(values: readonly number[], centre: number): number {
  return values.reduce((sum, value) => sum + (value - centre) ** 2, 0) / Math.max(1, values.length - 1);
}
