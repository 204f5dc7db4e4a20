import { fewestTakes, type SequentialGate, testState, waldBounds } from "./sequential.js";

/** Outcome probabilities of one sequential test for a player. */
export interface TestRates {
  /** Probability that the player is let on. */
  readonly letOn: number;
  /** Probability that the player is held. */
  readonly held: number;
  /** Expected number of takes until the test ends. */
  readonly expectedTakes: number;
}

/** The true error rates of a sequential gate. Wald's bounds keep them near the required ones, usually below. */
export interface SequentialRates {
  readonly able: TestRates;
  readonly unready: TestRates;
  /** Smallest number of takes that lets a player on, all of them clean. */
  readonly fewestTakes: number;
}

/** Probability of an undecided test below which the computation stops: our choice, far below any useful error rate. */
const NEGLIGIBLE = 1e-13;
/** Number of takes after which the computation stops in any case. */
const LONGEST_TEST = 200_000;

/**
 * The exact outcome probabilities of one test for the able and the unready player of the gate (a walk over the counts of clean and other
 * takes). Throws `RangeError` when the parameters of the gate make no test.
 *
 * @example sequentialRates({ kind: "sequential", able: 0.9, unready: 0.7, wronglyLetOn: 0.05, wronglyHeld: 0.05 }).fewestTakes // 12
 */
export function sequentialRates(gate: SequentialGate): SequentialRates {
  return {
    able: testRates(gate, gate.able),
    unready: testRates(gate, gate.unready),
    fewestTakes: fewestTakes(gate),
  };
}

function testRates(gate: SequentialGate, p: number): TestRates {
  const { letOn, held } = testEndings(gate, p);
  let [on, off, takes] = [0, 0, 0];
  letOn.forEach((chance, n) => {
    on += chance;
    off += held[n]!;
    takes += n * (chance + held[n]!);
  });
  return { letOn: on, held: off, expectedTakes: takes };
}

/** Probability that a test lets on, or holds, at take n (entry n, from n = 0), and the probability that it is still undecided at the end. */
export function testEndings(
  gate: SequentialGate,
  p: number,
): { readonly letOn: readonly number[]; readonly held: readonly number[]; readonly undecided: number } {
  const bounds = waldBounds(gate);
  const letOn = [0];
  const held = [0];
  // Of undecided tests: number of takes beyond tolerance -> its probability. All other takes are clean.
  let open = new Map<number, number>([[0, 1]]);
  let undecided = 1;
  for (let n = 1; undecided > NEGLIGIBLE && n <= LONGEST_TEST; n++) {
    const next = new Map<number, number>();
    let [on, off] = [0, 0];
    const arrive = (beyond: number, chance: number): void => {
      if (chance === 0) return;
      const state = testState(bounds, n - beyond, beyond);
      if (state === "let on") on += chance;
      else if (state === "held") off += chance;
      else next.set(beyond, (next.get(beyond) ?? 0) + chance);
    };
    for (const [beyond, chance] of open) {
      arrive(beyond, chance * p);
      arrive(beyond + 1, chance * (1 - p));
    }
    letOn.push(on);
    held.push(off);
    open = next;
    undecided = 0;
    for (const chance of open.values()) undecided += chance;
  }
  return { letOn, held, undecided };
}
