import type { Gate } from "../drill/index.js";

export type SequentialGate = Extract<Gate, { kind: "sequential" }>;

/** Wald's test in natural logarithms: what a take adds to the log likelihood ratio, and where the test ends. */
export interface WaldBounds {
  /** ln((1 - β) / α): at or above, the player is let on. */
  readonly upper: number;
  /** ln(β / (1 - α)): at or below, the player is held and the test starts afresh. */
  readonly lower: number;
  /** ln(able / unready), positive: added by a clean take. */
  readonly clean: number;
  /** ln((1 - able) / (1 - unready)), negative: added by a take beyond tolerance. */
  readonly beyond: number;
}

/**
 * The bounds and steps of a sequential gate: Wald, "Sequential tests of statistical hypotheses" (1945), with α the chance of wrongly
 * letting on and β that of wrongly holding.
 *
 * Throws `RangeError` unless 0 < unready < able < 1 and the two error rates are positive and sum to less than 1.
 */
export function waldBounds(gate: SequentialGate): WaldBounds {
  const { able, unready, wronglyLetOn, wronglyHeld } = gate;
  if (!(unready > 0 && able > unready && able < 1))
    throw new RangeError(`a sequential gate needs 0 < unready < able < 1, got unready ${unready}, able ${able}`);
  if (!(wronglyLetOn > 0 && wronglyHeld > 0 && wronglyLetOn + wronglyHeld < 1))
    throw new RangeError(`error rates must be positive and sum to less than 1, got ${wronglyLetOn} and ${wronglyHeld}`);
  return {
    upper: Math.log((1 - wronglyHeld) / wronglyLetOn),
    lower: Math.log(wronglyHeld / (1 - wronglyLetOn)),
    clean: Math.log(able / unready),
    beyond: Math.log((1 - able) / (1 - unready)),
  };
}

/**
 * Wald's approximation of the expected number of takes, which neglects the overshoot at the bounds: for an unready player
 * ((1 - α) lower + α upper) / E[step], for an able one (β lower + (1 - β) upper) / E[step]. `gateCurve` and `sequentialRates` are exact.
 */
export function waldExpectedTakes(gate: SequentialGate): { readonly able: number; readonly unready: number } {
  const { upper, lower, clean, beyond } = waldBounds(gate);
  const step = (p: number): number => p * clean + (1 - p) * beyond;
  return {
    able: (gate.wronglyHeld * lower + (1 - gate.wronglyHeld) * upper) / step(gate.able),
    unready: ((1 - gate.wronglyLetOn) * lower + gate.wronglyLetOn * upper) / step(gate.unready),
  };
}

/** Where a test stands after so many takes: the ratio comes from the counts, so that no rounding accumulates. */
export function testState(bounds: WaldBounds, clean: number, beyond: number): "let on" | "held" | "undecided" {
  const ratio = clean * bounds.clean + beyond * bounds.beyond;
  return ratio >= bounds.upper ? "let on" : ratio <= bounds.lower ? "held" : "undecided";
}

/** Whether so many takes of one test let the player on; false as well for a gate that is no test. */
export function sequentialMet(gate: SequentialGate, clean: number, beyond: number): boolean {
  return isTest(gate) && testState(waldBounds(gate), clean, beyond) === "let on";
}

/** Places of the takes of the last test in a series of takes (true: clean); a test that held the player is over and the next take starts another. */
export function testsIn(gate: SequentialGate, series: readonly boolean[]): readonly number[] {
  if (!isTest(gate)) return [];
  const bounds = waldBounds(gate);
  let from = 0;
  let clean = 0;
  series.forEach((isClean, i) => {
    if (isClean) clean++;
    if (testState(bounds, clean, i + 1 - from - clean) !== "held") return;
    from = i + 1;
    clean = 0;
  });
  return Array.from({ length: series.length - from }, (_, i) => from + i);
}

function isTest(gate: SequentialGate): boolean {
  return gate.able > gate.unready && gate.wronglyLetOn + gate.wronglyHeld < 1;
}
