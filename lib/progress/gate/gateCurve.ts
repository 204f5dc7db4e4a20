import type { Gate } from "../../drill/index.js";
import type { Unmeasured } from "../../schema/index.js";
import { say } from "../say.js";
import { expectedSteps, gateChain, survival } from "./markovChain.js";
import { testEndings } from "./sequentialRates.js";

export interface CurveOptions {
  /** Number of takes that the curve covers; 50 when left out (our choice: some weeks of practice). */
  readonly takes?: number;
  /** Probability that a take is unclear and so changes nothing, from 0 to below 1; 0 when left out. */
  readonly unclear?: number;
}

/** The operating characteristic of a gate for a player whose takes are clean with a given probability. */
export interface GateCurve {
  /** Entry k - 1: probability that the gate is met within k takes. */
  readonly within: readonly number[];
  /** Expected number of takes until the gate is met. */
  readonly expectedTakes: number | Unmeasured;
  /** Probability left out, because a sequential test has no longest length: at most 1e-12. */
  readonly truncated: number;
}

/** Default number of takes of a curve. */
const TAKES = 50;

/**
 * The probability that a gate is met within 1, 2, ... takes, and the expected number of takes, for a player whose clear takes are each clean
 * with probability `p`, independently. Exact up to rounding, without simulation: a Markov chain whose states are what the gate remembers (the
 * last outcomes, the length of the row, or the counts of the current test).
 *
 * Throws `RangeError` when `p`, `takes` or `unclear` is out of range, the gate cannot be met or is no test, or its window is wider than
 * `WIDEST_WINDOW`.
 *
 * @example gateCurve({ kind: "clean of last", clean: 4, of: 5 }, 0.9, { takes: 5 }).within[4] // 0.91854
 */
export function gateCurve(gate: Gate, p: number, options: CurveOptions = {}): GateCurve {
  const { takes = TAKES, unclear = 0 } = options;
  if (!(p >= 0 && p <= 1)) throw new RangeError(`a chance must be from 0 to 1, got ${p}`);
  if (!(Number.isInteger(takes) && takes >= 1 && takes <= 100_000))
    throw new RangeError(`a curve covers 1 to 100000 takes, got ${takes}`);
  if (!(unclear >= 0 && unclear < 1))
    throw new RangeError(`the share of unclear takes must be from 0 to below 1, got ${unclear}`);
  const { letOn, expected, truncated } =
    gate.kind === "sequential" ? repeatedTest(gate, p, takes) : window(gate, p, takes);
  return {
    within: thinned(letOn, unclear),
    expectedTakes: expected === undefined ? neverLetOn() : expected / (1 - unclear),
    truncated,
  };
}

interface Clear {
  /** Entry k, from k = 0: probability that the gate is met within k clear takes. */
  readonly letOn: readonly number[];
  readonly expected: number | undefined;
  readonly truncated: number;
}

function window(gate: Exclude<Gate, { kind: "sequential" }>, p: number, takes: number): Clear {
  const chain = gateChain(gate);
  const held = survival(chain, p, takes);
  return { letOn: held.map((chance) => 1 - chance), expected: expectedSteps(chain, p), truncated: 0 };
}

/** After a test that holds the player, a new test starts: a renewal process, whose renewals are the ends of these tests. */
function repeatedTest(gate: Extract<Gate, { kind: "sequential" }>, p: number, takes: number): Clear {
  const { letOn, held, undecided } = testEndings(gate, p);
  const starts = [1];
  const ends = [0];
  for (let k = 1; k <= takes; k++) {
    let [start, end] = [0, 0];
    for (let length = Math.min(k, letOn.length - 1); length >= 1; length--) {
      start += held[length]! * starts[k - length]!;
      end += letOn[length]! * starts[k - length]!;
    }
    starts.push(start);
    ends.push(ends[k - 1]! + end);
  }
  const chance = sum(letOn);
  const length = letOn.reduce((total, each, n) => total + n * (each + held[n]!), 0);
  // Wald's identity: the number of tests until the first that lets the player on is geometric, so their expected total length is E[length] / chance.
  return { letOn: ends, expected: chance > 0 ? length / chance : undefined, truncated: undecided };
}

/** The probabilities by takes of any verdict, each unclear with probability `unclear`: the number of clear takes is binomial. */
function thinned(letOn: readonly number[], unclear: number): readonly number[] {
  if (unclear === 0) return letOn.slice(1);
  let clear = [1];
  return letOn.slice(1).map(() => {
    clear = [...clear, 0].map((chance, j) => unclear * chance + (1 - unclear) * (clear[j - 1] ?? 0));
    // The binomial chances add up to 1 but for rounding.
    return Math.min(
      1,
      clear.reduce((total, chance, j) => total + chance * letOn[j]!, 0),
    );
  });
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}

function neverLetOn(): Unmeasured {
  const { says, message } = say("progress.never-let-on");
  return { unmeasured: says, message };
}
