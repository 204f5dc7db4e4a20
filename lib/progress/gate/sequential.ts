import type { Gate } from "../../drill/index.js";

export type SequentialGate = Extract<Gate, { kind: "sequential" }>;

/** Wald's sequential probability ratio test, in natural logarithms: the bounds of the log likelihood ratio, and what a take adds to it. */
export interface WaldBounds {
  /** ln((1 - β) / α): at or above it the player is let on. */
  readonly upper: number;
  /** ln(β / (1 - α)): at or below it the player is held, and a new test starts. */
  readonly lower: number;
  /** ln(able / unready), positive: added by a clean take. */
  readonly clean: number;
  /** ln((1 - able) / (1 - unready)), negative: added by a take beyond tolerance. */
  readonly beyond: number;
}

/**
 * The bounds and steps of a sequential gate: Wald, "Sequential tests of statistical hypotheses" (1945). α is the probability of wrongly
 * letting a player on, β that of wrongly holding one.
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
 * Wald's approximation of the expected number of takes, which neglects the overshoot at the bounds. For an unready player:
 * ((1 - α) lower + α upper) / E[step]. For an able player: (β lower + (1 - β) upper) / E[step]. `gateCurve` and `sequentialRates` are exact.
 */
export function waldExpectedTakes(gate: SequentialGate): { readonly able: number; readonly unready: number } {
  const { upper, lower, clean, beyond } = waldBounds(gate);
  const step = (p: number): number => p * clean + (1 - p) * beyond;
  return {
    able: (gate.wronglyHeld * lower + (1 - gate.wronglyHeld) * upper) / step(gate.able),
    unready: ((1 - gate.wronglyLetOn) * lower + gate.wronglyLetOn * upper) / step(gate.unready),
  };
}

/** The smallest number of takes, all of them clean, after which the player is let on; 1 when the parameters of the gate make no test. */
export function fewestTakes(gate: SequentialGate): number {
  if (!isTest(gate)) return 1;
  const { upper, clean } = waldBounds(gate);
  // As `testState` compares, so that both agree at the bound itself.
  const near = Math.max(1, Math.floor(upper / clean));
  return near * clean >= upper - roundingOf(near) ? near : near + 1;
}

/** State of a test after these numbers of takes. The ratio is computed from the counts, so that rounding errors do not accumulate. */
export function testState(bounds: WaldBounds, clean: number, beyond: number): "let on" | "held" | "undecided" {
  const ratio = clean * bounds.clean + beyond * bounds.beyond;
  const rounding = roundingOf(clean + beyond);
  return ratio >= bounds.upper - rounding ? "let on" : ratio <= bounds.lower + rounding ? "held" : "undecided";
}

/**
 * How far rounding may put a ratio from a bound that it reaches exactly. A take's logarithm is off by less than 1e-12: `1 - p` is off by 1.1e-16, and probabilities
 * of courses are at least 1e-4 from 1. A ratio that reaches a bound to within this counts as at the bound: nobody can tell the difference.
 */
function roundingOf(takes: number): number {
  return 1e-12 * (takes + 1);
}

/** Whether these numbers of takes of one test let the player on; false also when the parameters of the gate make no test. */
export function sequentialMet(gate: SequentialGate, clean: number, beyond: number): boolean {
  return isTest(gate) && testState(waldBounds(gate), clean, beyond) === "let on";
}

/** Indices of the takes of the last test in a series of takes (true: clean). A test that holds the player ends, and the next take starts a new one. */
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
