import type { Lay } from "../students/player.js";
import { alongNoise, FEATURES, type FixedPoint, featuresAt, type Standpoint } from "./coordinates.js";
import { OUTCOMES } from "./outcome.js";
import { casesOf, type LeftOut, type RungPlays } from "./plays.js";
import { type Case, fitOutcomes, type Prior, softmax } from "./regression.js";

/** What is known of a rung from its plays, as plain data. */
export interface RungRow {
  /** Coefficients of each outcome in `seen` but the first. */
  readonly weights: readonly (readonly number[])[];
  /** Outcomes that occur, the clean take first. */
  readonly seen: readonly number[];
  /** Cumulated chances of `OUTCOMES` for a take with a slip. */
  readonly slipped: readonly number[];
  /** How many times more often than expected landings and other notes are left out in clean takes and in those beyond. */
  readonly leftOut: Readonly<Record<"clean" | "beyond", { readonly landings: number; readonly notes: number }>>;
  /** Takes that were played for it. */
  readonly plays: number;
}

/** Chances of each outcome of a take, by rung and by where the student stands. */
export interface RungChances extends Pick<RungRow, "leftOut" | "plays"> {
  /** Chances of `OUTCOMES` for a take without a slip. */
  at(standpoint: Standpoint): Float64Array;
  /** The same for a student who stays on the rung: by the noise alone. Writes into `into`, which is cumulated and so ends at 1. */
  staying(fixed: FixedPoint): (noise: number, into: Float64Array) => void;
  /** Cumulated chances of `OUTCOMES` for a take with a slip. */
  readonly slipped: Float64Array;
}

/** What is known of a rung's coefficients before it is played, from all rungs together: SD for the constant, and for every other feature. Our choice. */
const CONSTANT_SD = 2;
const OTHER_SD = 0.4;
/** The same of all rungs together, about 0. */
const VAGUE_SD = 3;

/**
 * The chances of rungs from their plays. The rungs of silences and those without are two families: what a family has in common is fitted to all of its plays, and each
 * rung to its own, as far as they speak against that (empirical Bayes).
 */
export function chanceTable(rungs: readonly { readonly plays: RungPlays; readonly lay: Lay }[]): readonly RungRow[] {
  const families = [true, false].map((silent) => {
    const members = rungs.filter(({ lay }) => lay.silences.length > 0 === silent);
    const cases = members.flatMap(({ plays }) => casesOf(plays));
    const slipped = members.reduce<readonly number[]>(
      (sum, { plays }) => sum.map((count, i) => count + plays.slipped[i]!),
      OUTCOMES.map(() => 0),
    );
    const leftOut = {
      clean: timesExpected(members.map(({ plays }) => plays.leftOut.clean)),
      beyond: timesExpected(members.map(({ plays }) => plays.leftOut.beyond)),
    };
    return { silent, seen: seenIn(cases), slipped, leftOut, prior: commonPrior(cases) };
  });
  return rungs.map(({ plays, lay }) => {
    const family = families.find(({ silent }) => lay.silences.length > 0 === silent)!;
    const cases = renumbered(casesOf(plays), family.seen);
    const weights = fitOutcomes(cases, family.prior);
    return {
      weights: weights.map((row) => [...row]),
      seen: family.seen,
      slipped: [...pooled(plays.slipped, family.slipped)],
      leftOut: family.leftOut,
      plays: cases.length,
    };
  });
}

/** How many times more often than expected, as if two had been expected and two left out besides (our choice), so that few plays say little. */
function timesExpected(all: readonly LeftOut[]): { readonly landings: number; readonly notes: number } {
  const sum = (of: 0 | 1 | 2 | 3): number => all.reduce((total, each) => total + each[of], 2);
  return { landings: sum(0) / sum(1), notes: sum(2) / sum(3) };
}

/** Outcomes that occurred, the clean take first whether it occurred or not. */
function seenIn(cases: readonly Case[]): readonly number[] {
  return OUTCOMES.map((_, i) => i).filter((i) => i === 0 || cases.some(({ outcome }) => outcome === i));
}

function renumbered(cases: readonly Case[], seen: readonly number[]): readonly Case[] {
  return cases.map(({ features, outcome }) => ({ features, outcome: seen.indexOf(outcome) }));
}

function commonPrior(cases: readonly Case[]): Prior {
  const seen = seenIn(cases);
  const vague = {
    means: seen.slice(1).map(() => new Float64Array(FEATURES)),
    sds: new Float64Array(FEATURES).fill(VAGUE_SD),
  };
  const sds = new Float64Array(FEATURES).fill(OTHER_SD);
  sds[0] = CONSTANT_SD;
  return { means: fitOutcomes(renumbered(cases, seen), vague), sds };
}

/** Cumulated shares of a rung's takes with a slip, with as much of the family's as four takes weigh (our choice). */
function pooled(own: readonly number[], all: readonly number[]): Float64Array {
  const total = (counts: readonly number[]): number => counts.reduce((sum, count) => sum + count, 0);
  const [mine, ours] = [total(own), total(all)];
  const shares = own.map((count, i) => (count + (ours === 0 ? (i === 1 ? 4 : 0) : (4 * all[i]!) / ours)) / (mine + 4));
  return cumulated(Float64Array.from(shares));
}

function cumulated(shares: Float64Array): Float64Array {
  let sum = 0;
  const into = shares.map((share) => {
    sum += share;
    return sum;
  });
  into[into.length - 1] = 1;
  return into;
}

/** The chances that a row of the table stands for. */
export function chancesOf({ weights: plain, seen, slipped, ...rest }: RungRow): RungChances {
  const weights = plain.map((row) => Float64Array.from(row));
  const flat = Float64Array.from(plain.flat());
  return {
    ...rest,
    slipped: Float64Array.from(slipped),
    at: (standpoint) => {
      const chances = softmax(flat, featuresAt(standpoint), weights.length);
      const all = new Float64Array(OUTCOMES.length);
      seen.forEach((outcome, i) => {
        all[outcome] = chances[i]!;
      });
      return all;
    },
    staying: (fixed) => {
      const logits = weights.map((row) => alongNoise(row, fixed));
      return (noise, into) => {
        into.fill(0);
        into[0] = 1;
        let total = 1;
        for (let k = 0; k < logits.length; k++) {
          const [a, b, c, d] = logits[k]!;
          const odds = Math.exp(Math.min(50, a + noise * (b + noise * (c + noise * d))));
          into[seen[k + 1]!] = odds;
          total += odds;
        }
        let sum = 0;
        for (let i = 0; i < into.length; i++) {
          sum += into[i]! / total;
          into[i] = sum;
        }
        into[into.length - 1] = 1;
      };
    },
  };
}
