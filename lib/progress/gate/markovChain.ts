import type { Gate } from "../../drill/index.js";

/** Widest window, in takes, for which a curve is computed: our choice, because 2^15 states take a fraction of a second and wider windows minutes. */
export const WIDEST_WINDOW = 16;
/** Longest row, in takes, for which a curve is computed: our choice. */
const LONGEST_ROW = 10_000;

/**
 * The Markov chain of a gate. Its states are what the gate remembers of past takes, numbered from 0, the start. Each list gives the next state
 * after a clean take or a take beyond tolerance; `LET_ON` when the gate is met.
 */
export interface GateChain {
  readonly clean: readonly number[];
  readonly beyond: readonly number[];
  /** Number of takes after which an earlier take has no effect. */
  readonly memory: number;
}
const LET_ON = -1;

/** The chain of a gate. Throws `RangeError` when the gate cannot be met, or has too many states. */
export function gateChain(gate: Exclude<Gate, { kind: "sequential" }>): GateChain {
  if (gate.kind === "in a row") {
    if (!(Number.isInteger(gate.count) && gate.count >= 1 && gate.count <= LONGEST_ROW))
      throw new RangeError(`a row of clean takes must be 1 to ${LONGEST_ROW} long, got ${gate.count}`);
    const lengths = Array.from({ length: gate.count }, (_, i) => i);
    return {
      clean: lengths.map((length) => (length + 1 === gate.count ? LET_ON : length + 1)),
      beyond: lengths.map(() => 0),
      memory: gate.count,
    };
  }
  const { clean, of } = gate;
  if (!(Number.isInteger(clean) && Number.isInteger(of) && clean >= 1 && clean <= of && of <= WIDEST_WINDOW))
    throw new RangeError(`a gate needs 1 <= clean <= of <= ${WIDEST_WINDOW}, got ${clean} of ${of}`);
  // A state is the set of clean takes among the last (of - 1) takes: one bit per take, the latest lowest. Clean takes that are too old to help
  // to meet the gate are removed.
  const numbers = new Map<number, number>([[0, 0]]);
  const states = [0];
  const numbered = (bits: number): number => {
    if (countOf(bits) >= clean) return LET_ON;
    const useful = trimmed(bits & ((1 << (of - 1)) - 1), gate);
    if (!numbers.has(useful)) {
      numbers.set(useful, states.length);
      states.push(useful);
    }
    return numbers.get(useful)!;
  };
  const chain = { clean: [] as number[], beyond: [] as number[], memory: of };
  for (let i = 0; i < states.length; i++) {
    chain.clean.push(numbered((states[i]! << 1) | 1));
    chain.beyond.push(numbered(states[i]! << 1));
  }
  return chain;
}

/** Entry k, from k = 0: probability that the gate is still not met after k takes. */
export function survival(chain: GateChain, p: number, takes: number): readonly number[] {
  const held = [1];
  let states = start(chain);
  for (let k = 1; k <= takes; k++) {
    states = step(chain, states, p).states;
    held.push(states.reduce((total, chance) => total + chance, 0));
  }
  return held;
}

/**
 * Expected number of takes until the gate is met: the sum of the probabilities that it is not met after 0, 1, 2, ... takes. When the state
 * probabilities have reached fixed proportions, every further take meets the gate with the same probability h, so the rest of the sum is
 * (probability not met) / h. `undefined`: the gate is never met.
 */
export function expectedSteps(chain: GateChain, p: number): number | undefined {
  /** Relative change of h below which it counts as constant: rounding error. */
  const settled = 1e-14;
  let states = start(chain);
  let [held, expected, share, still] = [1, 0, 0, 0];
  for (let k = 0; k < MOST_STEPS; k++) {
    expected += held;
    const next = step(chain, states, p);
    const now = next.letOn / held;
    still = Math.abs(now - share) <= settled * now ? still + 1 : 0;
    [states, share] = [next.states, now];
    held = states.reduce((total, chance) => total + chance, 0);
    if (held <= expected * Number.EPSILON * settled) return expected;
    if (still > chain.memory) return share > 0 ? expected + held / share : undefined;
  }
  return expected + held / share;
}

/** Number of takes after which the iteration stops in any case; the allowed windows and rows converge long before. */
const MOST_STEPS = 1_000_000;

function start(chain: GateChain): Float64Array {
  const states = new Float64Array(chain.clean.length);
  states[0] = 1;
  return states;
}

function step(
  chain: GateChain,
  states: Float64Array,
  p: number,
): { readonly states: Float64Array; readonly letOn: number } {
  const next = new Float64Array(states.length);
  let letOn = 0;
  for (let i = 0; i < states.length; i++) {
    const chance = states[i]!;
    if (chance === 0) continue;
    const clean = chain.clean[i]!;
    if (clean === LET_ON) letOn += chance * p;
    else next[clean]! += chance * p;
    next[chain.beyond[i]!]! += chance * (1 - p);
  }
  return { states: next, letOn };
}

/** Removes the clean takes that leave the window before the gate can be met with them. */
function trimmed(bits: number, gate: { readonly clean: number; readonly of: number }): number {
  let useful = bits;
  while (useful !== 0) {
    const oldest = 31 - Math.clz32(useful);
    if (gate.clean - countOf(useful) <= gate.of - 1 - oldest) break;
    useful &= ~(1 << oldest);
  }
  return useful;
}

function countOf(bits: number): number {
  let count = 0;
  for (let rest = bits; rest !== 0; rest &= rest - 1) count++;
  return count;
}
