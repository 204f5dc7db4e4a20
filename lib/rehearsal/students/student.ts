import type { Luck } from "./luck.js";
import { PURPOSES } from "./luck.js";
import type { LevelName, SkewedName, Students } from "./population.js";

/** The true traits of one simulated student, before any practice. */
export interface Student {
  /** Motor noise, ms a note. */
  readonly motor: number;
  /** Clock noise per square root of a beat, in multiples of motor noise. */
  readonly clock: number;
  /** SD of the tempo from silence to silence, as a ratio of tempo, for each ms of clock noise. */
  readonly bias: number;
  /** Usual tempo error in a silence, per cent of tempo: at 120 a minute, for each e-fold of the beat, for each doubling of notes a beat. */
  readonly lean: number;
  readonly pull: number;
  readonly density: number;
  readonly excess: number;
  readonly rate: number;
  readonly forgets: number;
  /** Chances, from 0 to 1. */
  readonly slips: number;
  readonly landingsLeftOut: number;
  readonly missing: number;
  readonly daysAWeek: number;
  readonly takesASession: number;
  /** Which quarter of the population by steadiness before practice: 0 the steadiest. */
  readonly quarter: 0 | 1 | 2 | 3;
}

/** Numbers of the traits in the address of their luck. Never given to another trait. */
const NTH: Readonly<Record<SkewedName | LevelName, number>> = {
  motor: 0,
  clock: 1,
  bias: 2,
  lean: 3,
  pull: 4,
  density: 5,
  excess: 6,
  rate: 7,
  forgets: 8,
  slips: 9,
  "landings-left-out": 10,
  missing: 11,
  "days-a-week": 12,
  "takes-a-session": 13,
};
/** Quartiles of the standard normal distribution. */
const QUARTILES = [-0.6744897501960817, 0, 0.6744897501960817];

/** The student whose luck in the matter of traits this is. Each trait is drawn by itself: a population that changes one leaves the others. */
export function studentBy(students: Students, luck: Luck): Student {
  const z = (name: SkewedName | LevelName): number => luck.normal(NTH[name], PURPOSES.trait);
  const skewed = (name: SkewedName, most = Number.POSITIVE_INFINITY): number =>
    Math.min(most, students.skewed[name].median * students.skewed[name].ratio ** z(name));
  const level = (name: LevelName): number => students.level[name].mean + students.level[name].sd * z(name);
  const steadiness = z("motor");
  return {
    motor: skewed("motor"),
    clock: skewed("clock"),
    bias: skewed("bias"),
    lean: level("lean"),
    pull: level("pull"),
    density: level("density"),
    excess: skewed("excess"),
    rate: skewed("rate", 1),
    forgets: skewed("forgets", 1),
    slips: skewed("slips", 100) / 100,
    landingsLeftOut: skewed("landings-left-out", 100) / 100,
    missing: skewed("missing", 100) / 100,
    daysAWeek: Math.min(7, Math.max(0.5, level("days-a-week"))),
    takesASession: Math.max(1, Math.round(skewed("takes-a-session"))),
    quarter: QUARTILES.filter((quartile) => steadiness >= quartile).length as Student["quarter"],
  };
}
