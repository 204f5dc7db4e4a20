import { beatsOver, meanBeat } from "../../base/index.js";
import type { Score } from "../../schema/index.js";
import type { Player } from "../player.js";
import type { Student } from "./student.js";

/** What of a score bears on how far a student leans in its silences. */
export interface Lay {
  /** Milliseconds a beat. */
  readonly beatMs: number;
  /** Expected notes a beat. */
  readonly notesABeat: number;
  /** Beats of the silences in which a slip finds room. */
  readonly silences: readonly number[];
  /** Notes on which the accompaniment returns, and the others. */
  readonly landings: number;
  readonly notes: number;
}

/** Sizes of slips, beats: our choice, of the displacements that assessing knows. */
const SLIPS = [0.5, 1] as const;
/** The beat at which `lean` is what it is: 120 a minute, as in `lib/forecast`. */
const MIDDLE_BEAT_MS = 500;

export function layOf(score: Score): Lay {
  const silences = score.dropouts.filter(({ silent, landing }) => silent && landing !== null);
  const landings = score.dropouts.filter(({ landing }) => landing !== null).length;
  return {
    landings,
    notes: Math.max(0, score.expected.length - landings),
    beatMs: 1000 * meanBeat(score, score.duration),
    notesABeat: Math.max(0.25, score.expected.length / beatsOver(score, 0, score.duration)),
    silences: silences.map(({ from, to }) => beatsOver(score, from, to)),
  };
}

/** Usual tempo error of a student in the silences of a score, per cent of tempo. */
export function leanOn({ lean, pull, density }: Student, { beatMs, notesABeat }: Lay): number {
  return lean + pull * Math.log(beatMs / MIDDLE_BEAT_MS) + density * Math.log2(notesABeat);
}

/** The student as a player of a score, with noise at `share` of what it was before any practice. */
export function playerOf(student: Student, lay: Lay, share: number): Player {
  const motorMs = student.motor * share;
  const clockMs = motorMs * student.clock;
  return {
    motorMs,
    clockMs,
    biasPercent: 100 * student.bias * clockMs,
    leanPercent: leanOn(student, lay),
    // Phase correction and lead as the players of `lib/rehearsal/player.ts` have them.
    correction: 0.35,
    offsetMs: -20,
    missing: student.missing,
    adding: student.missing,
    habits: {
      slips: { chance: student.slips, beats: SLIPS, at: "in the silence", backAfterBars: 1 },
      landingsLeftOut: student.landingsLeftOut,
    },
  };
}

/** Chance that a take of such a score has a slip. Of the two sizes, one may not fit a silence. */
export function slipChance({ slips }: Student, { silences }: Lay): number {
  let none = 1;
  for (const beats of silences)
    none *= 1 - (slips * SLIPS.filter((size) => size <= beats + 1e-6).length) / SLIPS.length;
  return 1 - none;
}

/** Chance that a landing is left out, and that another note is. */
export function omissionChances({ landingsLeftOut, missing }: Student): {
  readonly landing: number;
  readonly note: number;
} {
  return { landing: 1 - (1 - landingsLeftOut) * (1 - missing), note: missing };
}
