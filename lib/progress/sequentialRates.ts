import { type SequentialGate, testState, waldBounds } from "./sequential.js";

/** How one sequential test ends for a player. */
export interface TestRates {
  /** Chance to be let on. */
  readonly letOn: number;
  /** Chance to be held. */
  readonly held: number;
  /** Takes until one or the other, on average. */
  readonly expectedTakes: number;
}

/** The error rates a sequential gate really has; Wald's bounds keep them near those asked for, usually below. */
export interface SequentialRates {
  readonly able: TestRates;
  readonly unready: TestRates;
  /** The least number of takes that lets a player on, all clean. */
  readonly fewestTakes: number;
}

/** Undecided chance below which a test counts as over: our choice, far below any error rate worth stating. */
const NEGLIGIBLE = 1e-13;
/** Takes after which a test is given up in any case. */
const LONGEST_TEST = 200_000;

/**
 * What a single test does with a player at each of the two chances the gate is stated for, exactly (walks over the counts of clean and
 * other takes). Throws `RangeError` when the gate is no test.
 *
 * @example sequentialRates({ kind: "sequential", able: 0.9, unready: 0.7, wronglyLetOn: 0.05, wronglyHeld: 0.05 }).fewestTakes // 12
 */
export function sequentialRates(gate: SequentialGate): SequentialRates {
  const bounds = waldBounds(gate);
  return {
    able: testRates(gate, gate.able),
    unready: testRates(gate, gate.unready),
    fewestTakes: Math.ceil(bounds.upper / bounds.clean),
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

/** Chance that a test ends at take n by letting on, or by holding (entry n, from n = 0), and the chance that it goes on beyond. */
export function testEndings(
  gate: SequentialGate,
  p: number,
): { readonly letOn: readonly number[]; readonly held: readonly number[]; readonly undecided: number } {
  const bounds = waldBounds(gate);
  const letOn = [0];
  const held = [0];
  // Chance of each count of takes beyond tolerance, among tests still going on; the clean ones are the rest.
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
