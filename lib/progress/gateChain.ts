import type { Gate } from "../drill/index.js";

/** Takes a gate may look back on for its curve to be worked out: our choice; 2^15 states take a fraction of a second, wider windows minutes. */
export const WIDEST_WINDOW = 16;
/** Longest row a curve is worked out for: our choice. */
const LONGEST_ROW = 10_000;

/** What a gate remembers, numbered: where a clean take and where another one leads; `LET_ON` when the gate is met. State 0 is the start. */
export interface GateChain {
  readonly clean: readonly number[];
  readonly beyond: readonly number[];
  /** Takes after which nothing of the past matters. */
  readonly memory: number;
}
const LET_ON = -1;

/** Throws `RangeError` when the gate cannot be met, or remembers more than can be worked out. */
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
  // A state is the set of clean takes among the last of - 1, one bit each, the latest lowest. Those no window can use any more are dropped.
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

/** Entry k: chance not to have been let on after k takes, from k = 0. */
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
 * Expected number of takes: the sum of the chances to be held after 0, 1, 2, ... takes. Once the states have settled into fixed
 * proportions, each further take lets on the same share h of those held, so the rest of the sum is (held) / h. `undefined`: never let on.
 */
export function expectedSteps(chain: GateChain, p: number): number | undefined {
  /** Relative change below which the share counts as settled: rounding level. */
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

/** Takes after which the states count as settled in any case; the windows and rows allowed settle long before. */
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

/** Without the clean takes that will have left every window before the gate can be met with them. */
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
