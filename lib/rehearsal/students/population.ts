import type { LevelTrait, SkewedTrait, StudentPopulation } from "../../schema/index.js";

/** How the traits of students are distributed: the document of a population with nothing left out. */
export interface Students {
  readonly name: string;
  readonly skewed: Readonly<Record<SkewedName, SkewedTrait>>;
  readonly level: Readonly<Record<LevelName, LevelTrait>>;
}
export type SkewedName =
  | "motor"
  | "clock"
  | "bias"
  | "excess"
  | "rate"
  | "forgets"
  | "slips"
  | "landings-left-out"
  | "missing"
  | "takes-a-session";
export type LevelName = "lean" | "pull" | "density" | "days-a-week";

/**
 * The built-in students. Motor and clock: published standard deviations of tapping are 5-12 ms for the motor delay and 3-5 % of 500 ms for an interval (Wing 1980,
 * Ivry & Hazeltine 1995, from memory); beginners on an instrument are taken to lie about that upper end. Lean: people speed up when the beat stops (Flach 2005,
 * abstract read); by how much is our choice. Pull: short beats come out shorter and long ones longer, or the other way round (Stevens 1886: two players, opposite
 * ways). Practice is exponential (Heathcote, Brown & Mewhort 2000, abstract read); its size and rate are those of `lib/forecast`, our choice, and so are
 * density, forgetting, slips, omissions, days and takes.
 */
export const BUILT_IN_STUDENTS: Students = {
  name: "built in",
  skewed: {
    motor: { median: 12, ratio: 1.4 },
    clock: { median: 0.9, ratio: 1.3 },
    bias: { median: 0.00125, ratio: 1.4 },
    excess: { median: 0.4, ratio: 2 },
    rate: { median: 1 / 30, ratio: 2 },
    forgets: { median: 0.2, ratio: 1.5 },
    slips: { median: 0.7, ratio: 2 },
    "landings-left-out": { median: 0.5, ratio: 2 },
    missing: { median: 2, ratio: 1.6 },
    "takes-a-session": { median: 12, ratio: 1.3 },
  },
  level: {
    lean: { mean: -0.5, sd: 1.2 },
    pull: { mean: 0, sd: 3 },
    density: { mean: -0.3, sd: 0.6 },
    "days-a-week": { mean: 4, sd: 1 },
  },
};

/**
 * The students of a document; what it leaves out is as built in.
 *
 * @example
 * studentsOf({ population: "steady hands", traits: { motor: { median: 8, ratio: 1.2 } } }).skewed.motor.median // 8
 */
export function studentsOf({ population, traits = {} }: StudentPopulation): Students {
  return {
    name: population,
    skewed: merged<SkewedName, SkewedTrait>(BUILT_IN_STUDENTS.skewed, traits),
    level: merged<LevelName, LevelTrait>(BUILT_IN_STUDENTS.level, traits),
  };
}

function merged<Name extends string, Trait>(
  builtIn: Readonly<Record<Name, Trait>>,
  stated: Partial<Readonly<Record<Name, Trait>>>,
): Record<Name, Trait> {
  const names = Object.keys(builtIn) as Name[];
  return Object.fromEntries(names.map((name) => [name, stated[name] ?? builtIn[name]])) as Record<Name, Trait>;
}
