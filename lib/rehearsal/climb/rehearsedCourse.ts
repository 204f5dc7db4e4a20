import type { Curriculum } from "../../curriculum/index.js";
import { type Drill, type GoBack, type Rung, rungs, scoreOf, settingsText, takeSeconds } from "../../drill/index.js";
import { fingerprint } from "../../progress/index.js";
import type { Score } from "../../schema/index.js";
import { type Lay, layOf } from "../students/player.js";

/** A course as it is rehearsed: every rung with what a take of it asks. */
export interface RehearsedCourse {
  readonly course: Curriculum;
  readonly drills: readonly RehearsedDrill[];
}
export interface RehearsedDrill {
  readonly drill: Drill;
  readonly goBack: GoBack | undefined;
  /** Rungs that are rehearsed: all of the drill's, or its first `MOST_RUNGS`. */
  readonly count: number;
  /** Numbers of the drills that must be complete before this one opens. */
  readonly needs: readonly number[];
  readonly rungs: readonly RehearsedRung[];
}
export interface RehearsedRung {
  /** Settings text. */
  readonly name: string;
  readonly rung: Rung;
  readonly score: Score;
  /** Stands for the score: scores that ask the same have the same. */
  readonly key: string;
  readonly lay: Lay;
  /** Length of a take, seconds. */
  readonly seconds: number;
}

/** Rungs of a drill that are rehearsed at most: our choice, more than a student climbs in some years. */
const MOST_RUNGS = 500;

/** The rungs of a course, or of some of its drills: drills that are left out count as complete. */
export function rehearsedCourse(course: Curriculum, only?: readonly string[]): RehearsedCourse {
  const chosen = course.drills.filter(({ name }) => only === undefined || only.includes(name));
  return {
    course,
    drills: chosen.map((drill) => {
      const all = rungs(drill);
      const count = Math.min(all.count, MOST_RUNGS);
      return {
        drill,
        goBack: drill.goBack,
        count,
        needs: drill.needs.map((need) => chosen.findIndex(({ name }) => name === need)).filter((need) => need >= 0),
        rungs: Array.from({ length: count }, (_, i) => rehearsedRung(all.at(i))),
      };
    }),
  };
}

/** Counts the changes in how takes are played and judged: what was kept under another number is played anew. */
const LAW = 2;

function rehearsedRung(rung: Rung): RehearsedRung {
  const score = scoreOf(rung);
  const { duration, beat, expected, dropouts, audible, open, tolerance } = score;
  return {
    name: settingsText(rung.settings),
    rung,
    score,
    key: fingerprint({ law: LAW, duration, beat, expected, dropouts, audible, open, tolerance }),
    lay: layOf(score),
    seconds: takeSeconds(rung),
  };
}
