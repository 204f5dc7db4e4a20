// Generated from schemas/ by `npm run types`; change the schema instead.

import type { Milliseconds, Written } from "../../base/index.js";
/**
 * Where the students of a store are, who is stuck and on what, and how they drift in silences of each length over weeks. Worked out from journals alone; positive is late, slower, dragging; negative is early, faster, rushing.
 */
export interface Report {
  /**
   * Version of this format; a reader refuses versions it does not know.
   */
  readonly version: 2;
  /**
   * The moment it is of.
   */
  readonly at: string;
  /**
   * First day whose takes are counted; left out when all are.
   */
  readonly since?: string;
  /**
   * Every student once, in the order of their names.
   */
  readonly students: readonly StudentReport[];
  /**
   * Where all of them are, course by course.
   */
  readonly courses: readonly CourseCount[];
  /**
   * Drift in silences, shortest first, over all these students.
   */
  readonly drift: readonly LengthDrift[];
}
/**
 * Takes by verdict.
 */
export interface ReportTally {
  /**
   * Takes within tolerance. Range: at least 0.
   */
  readonly within: number;
  /**
   * Takes beyond tolerance. Range: at least 0.
   */
  readonly beyond: number;
  /**
   * Takes that could not be judged. Range: at least 0.
   */
  readonly unclear: number;
}
/**
 * Median and quartiles (Hyndman and Fan 1996, definition 7), signed: positive is late, slower, dragging; negative is early, faster, rushing.
 */
export interface DriftQuartiles {
  /**
   * Half of the values lie on either side.
   */
  readonly median: number;
  /**
   * First quartile: a quarter of the values lie below.
   */
  readonly low: number;
  /**
   * Third quartile: a quarter of the values lie above.
   */
  readonly high: number;
}
/**
 * Drift in the silences of one length, in one week.
 */
export interface WeekDrift {
  /**
   * Monday of the week, by the calendar where the takes were played.
   */
  readonly week: string;
  /**
   * Takes with such silences. Range: at least 0.
   */
  readonly takes: number;
  /**
   * Silences whose drift was measured. Range: at least 0.
   */
  readonly measured: number;
  /**
   * Silences whose drift is not counted: nothing was played in them, or the take could be read in several ways. Range: at least 0.
   */
  readonly unmeasured: number;
  /**
   * Drift in whole milliseconds; left out when none was measured.
   */
  readonly driftMs?: DriftQuartiles;
  /**
   * Drift as per cent of tempo, in tenths; left out when none was measured.
   */
  readonly driftPercent?: DriftQuartiles;
  /**
   * The landings after these silences; left out when none was measured.
   */
  readonly landings?: LandingFigures;
}
/**
 * Landings after silences of one length. Positive means late.
 */
export interface LandingFigures {
  /**
   * Landings that were measured. Range: at least 1.
   */
  readonly measured: number;
  /**
   * Offset of the student's note from the downbeat on which the accompaniment returned, whole milliseconds.
   */
  readonly ms: DriftQuartiles;
}
/**
 * Drift in the silences of one length.
 */
export interface LengthDrift {
  /**
   * Length of the silences, as the rung says it; left out when a journal does not say.
   */
  readonly length?: string;
  /**
   * What is counted: each silence, or, of takes kept before journals had each of them, the largest drift of the take.
   */
  readonly told: "each silence" | "largest of a take";
  /**
   * Takes with such silences. Range: at least 0.
   */
  readonly takes: number;
  /**
   * Silences whose drift was measured. Range: at least 0.
   */
  readonly measured: number;
  /**
   * Silences whose drift is not counted: nothing was played in them, or the take could be read in several ways. Range: at least 0.
   */
  readonly unmeasured: number;
  /**
   * Drift in whole milliseconds; left out when none was measured.
   */
  readonly driftMs?: DriftQuartiles;
  /**
   * Drift as per cent of tempo, in tenths; left out when none was measured.
   */
  readonly driftPercent?: DriftQuartiles;
  /**
   * The landings after these silences; left out when none was measured.
   */
  readonly landings?: LandingFigures;
  /**
   * The weeks with such takes, in order.
   */
  readonly weeks: readonly WeekDrift[];
}
/**
 * What takes that were not clean failed on; each of them counts once.
 */
export interface Sticking {
  /**
   * The figure furthest outside its tolerance; `slip`: came in beats or bars off; `unclear`: could not be judged; `not kept`: the journal does not have the figures.
   */
  readonly on: "drift" | "landing" | "steadiness" | "slip" | "unclear" | "not kept";
  /**
   * Takes that failed on it. Range: at least 1.
   */
  readonly takes: number;
  /**
   * Length of the silences, as the rung says it.
   */
  readonly length?: string;
  /**
   * The side on which the figure lies: early is rushing, late is dragging; `both` when neither has three in four.
   */
  readonly side?: "early" | "late" | "both";
  /**
   * Median of the figure over these takes, whole milliseconds.
   */
  readonly medianMs?: Written<Milliseconds>;
  /**
   * Of landings: the median drift in the silences before them, whole milliseconds, which tells a player who drifted from one who missed the downbeat.
   */
  readonly driftMs?: Written<Milliseconds>;
  /**
   * Why the takes are unclear: a code of the finding's reasons, TOO_CLOSE (to the tolerance to tell) or NOT_MEASURED (too little was played).
   */
  readonly reason?: string;
}
/**
 * A student who is stuck: so many takes without getting on that somebody ready would nearly always have got on.
 */
export interface Stall {
  /**
   * When the student last came to a rung of this drill for the first time.
   */
  readonly since: string;
  /**
   * Takes at the student's rung since then.
   */
  readonly takes: ReportTally;
  /**
   * What they failed on, most takes first.
   */
  readonly on: readonly Sticking[];
}
/**
 * An open drill and where the student is in it.
 */
export interface StudentPlace {
  /**
   * Name of the drill.
   */
  readonly drill: string;
  /**
   * Its title.
   */
  readonly title?: string;
  /**
   * Settings of the student's rung.
   */
  readonly rung: string;
  /**
   * Number of the rung, counted from 1; left out when the course is not at hand or has no such rung. Range: at least 1.
   */
  readonly number?: number;
  /**
   * Rungs of the drill; left out when the course is not at hand. Range: at least 1.
   */
  readonly rungs?: number;
  /**
   * When the student came to this rung.
   */
  readonly since: string;
  /**
   * Takes here since then.
   */
  readonly takes: ReportTally;
  /**
   * Takes without getting on after which a student counts as stuck here, or why that cannot be said. Range: at least 1.
   */
  readonly stuckAfter:
    | number
    | {
        /**
         * The reason.
         */
        readonly unmeasured: string;
        /**
         * The same reason before it is worded.
         */
        readonly message?: {
          /**
           * Name of the message in the catalogues of `leeway/words`.
           */
          readonly key: string;
          /**
           * What it speaks of, by name: numbers and texts.
           */
          readonly parameters: {
            readonly [k: string]: number | string;
          };
        };
      };
  /**
   * Present when the student is stuck here.
   */
  readonly stall?: Stall;
}
/**
 * A student in one course.
 */
export interface CourseReport {
  /**
   * Name of the course.
   */
  readonly curriculum: string;
  /**
   * Edition in force; left out when the enrolment has not arrived.
   */
  readonly edition?: string;
  /**
   * When the student was enrolled; left out when the enrolment has not arrived.
   */
  readonly enrolled?: string;
  /**
   * When the last take was assessed; left out when there is none.
   */
  readonly lastTake?: string;
  /**
   * Whether no take has come for three weeks although a drill is open.
   */
  readonly quiet: boolean;
  /**
   * Takes in the time reported.
   */
  readonly takes: ReportTally;
  /**
   * Names of the drills that are complete.
   *
   * Items: Name of a drill.
   */
  readonly complete: readonly string[];
  /**
   * The open drills of the edition in force.
   */
  readonly places: readonly StudentPlace[];
}
/**
 * One student.
 */
export interface StudentReport {
  /**
   * Who: a pseudonym is enough.
   */
  readonly student: string;
  /**
   * The student's courses, in the order of their names.
   */
  readonly courses: readonly CourseReport[];
}
/**
 * Students on one rung.
 */
export interface RungCount {
  /**
   * Settings of the rung.
   */
  readonly rung: string;
  /**
   * Number of the rung, counted from 1; left out when it is not known. Range: at least 1.
   */
  readonly number?: number;
  /**
   * Students there. Range: at least 1.
   */
  readonly students: number;
  /**
   * Those of them who are stuck. Range: at least 0.
   */
  readonly stuck: number;
}
/**
 * Where students are in one drill.
 */
export interface DrillCount {
  /**
   * Name of the drill.
   */
  readonly drill: string;
  /**
   * Its title.
   */
  readonly title?: string;
  /**
   * Rungs of the drill; left out when the course is not at hand. Range: at least 1.
   */
  readonly rungs?: number;
  /**
   * Students who completed it. Range: at least 0.
   */
  readonly complete: number;
  /**
   * The rungs with students, in the order of climbing.
   */
  readonly places: readonly RungCount[];
}
/**
 * Where students are in one course.
 */
export interface CourseCount {
  /**
   * Name of the course.
   */
  readonly curriculum: string;
  /**
   * Its title.
   */
  readonly title?: string;
  /**
   * Students in it. Range: at least 0.
   */
  readonly students: number;
  /**
   * Students who are stuck somewhere. Range: at least 0.
   */
  readonly stuck: number;
  /**
   * Students without a take for three weeks although a drill is open. Range: at least 0.
   */
  readonly quiet: number;
  /**
   * Takes in the time reported.
   */
  readonly takes: ReportTally;
  /**
   * The drills that are open or complete for anybody, in the order of the course.
   */
  readonly drills: readonly DrillCount[];
}
