import type { RehearsalDrill, RehearsalFinding, RehearsalRung } from "../../schema/index.js";
import { quantileOf } from "../summary/quantiles.js";
import type { Tally } from "../summary/tally.js";

/** Of the students who come to a rung, the share that may need very long for it: our choice, one of ten. */
const WALL = 0.1;
/** A finding about a rung rests on so many students at least, and one about takes on so many takes: our choice. */
const FEWEST_STUDENTS = 40;
const FEWEST_TAKES = 400;
/** Weeks of a term: our choice. */
const TERM = 12;
/** Quantile of the normal distribution for a one-sided 97.5 %: what is said of a share is said of its interval. */
const SURE = 1.96;

/** What a teacher should know of a course, in its order. */
export function findingsOf(drills: readonly RehearsalDrill[], all: Tally): RehearsalFinding[] {
  return drills.flatMap(({ drill, rungs }, d) => [
    ...rungs.flatMap((rung) => rungFindings(drill, rung)),
    ...longerThanTerm(drill, { all, d }),
  ]);
}

function rungFindings(drill: string, rung: RehearsalRung): RehearsalFinding[] {
  const { number, reached, long, letOn, outcomes, stuck } = rung;
  const place = { drill, number, rung: rung.rung };
  const on = worstOf(rung);
  const failed = on === undefined ? {} : { on };
  if (reached >= FEWEST_STUDENTS && letOn.of === 0 && stuck > 0)
    return [{ what: "nobody passes", ...place, share: 1, ...failed }];
  const share = reached === 0 ? 0 : long / reached;
  if (reached >= FEWEST_STUDENTS && share - SURE * Math.sqrt((share * (1 - share)) / reached) > WALL)
    return [{ what: "wall", ...place, share: Number(share.toFixed(3)), ...failed }];
  const takes = Object.values(outcomes).reduce((sum, count) => sum + count, 0);
  if (takes >= FEWEST_TAKES && !rung.teaches)
    return [{ what: "nobody can fail", ...place, share: Number((outcomes.within / takes).toFixed(3)) }];
  return [];
}

/** What most takes that were not clean failed on; `undefined` when all were clean. */
function worstOf({ outcomes: { within: _, ...others } }: Pick<RehearsalRung, "outcomes">): RehearsalFinding["on"] {
  const [worst] = Object.entries(others).sort(([, a], [, b]) => b - a);
  return worst![1] === 0 ? undefined : (worst![0] as RehearsalFinding["on"]);
}

/** A drill in which half of those who begin it play more takes than a student plays in a term, as they go on until the end of the course. */
function longerThanTerm(drill: string, { all, d }: { readonly all: Tally; readonly d: number }): RehearsalFinding[] {
  const { begun, rungs, completeTakes } = all.drills[d]!;
  if (begun < FEWEST_STUDENTS || all.days === 0) return [];
  const played = rungs.reduce((sum, { outcomes }) => sum + outcomes.reduce((total, count) => total + count, 0), 0);
  const takes = quantileOf(completeTakes, begun, 0.5) ?? played / begun;
  return takes > (all.takes / all.days) * 7 * TERM
    ? [{ what: "longer than a term", drill, takes: Math.round(takes) }]
    : [];
}
