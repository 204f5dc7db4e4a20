import type { Random } from "../base/index.js";
import type { Curriculum } from "../curriculum/index.js";
import { type Drill, type Rung, rungCalled, rungs, settingsText } from "../drill/index.js";
import { type Belief, cleanChance, type DemandCache, type History } from "../forecast/index.js";
import { drillStanding, isCompleted, rungStanding, weigh } from "../progress/index.js";
import type { DrillStanding, Standing } from "../schema/index.js";

/** Estimate of the work in one open drill. */
export interface WorkEstimate {
  /** The student's rung. */
  readonly rung: Rung;
  /** Chance of a clean take there, 0 to 1. */
  readonly chance: number;
  /** Clean takes in a row that would open the gate now. */
  readonly cleanNeeded: number;
}

/** What chances are estimated from, and what is aimed at. */
export interface Aim {
  readonly belief: Belief;
  readonly demands: DemandCache;
  /** Chance of a clean take that is aimed at. */
  readonly target: number;
}

/** Clean takes looked ahead for an open gate, at most. Our choice: gates in practice need fewer. */
const MOST_NEEDED = 60;

/** Whether a student may play a drill: it is open or complete and not withdrawn, and all it needs is complete or the student was put there. */
export function mayPlay(drill: Drill, standing: Standing, placed: ReadonlySet<string>): boolean {
  const held = drillStanding(standing, drill.name);
  if (held === undefined || held.state === "closed" || held.withdrawn === true) return false;
  const isPlaced = placed.has(drill.name) || held.by === "set by teacher" || held.by === "placement test";
  return isPlaced || drill.needs.every((need) => isCompleted(standing, need));
}

/** Work estimates of all open drills that may be played, the one nearest the aim first. Ties are broken by chance. */
export function estimateWork(
  curriculum: Curriculum,
  standing: Standing,
  { history, aim, chance }: { readonly history: History; readonly aim: Aim; readonly chance: Random },
): readonly WorkEstimate[] {
  const found = curriculum.drills.flatMap((drill) => {
    const held = drillStanding(standing, drill.name);
    const rung = rungCalled(drill, held?.rung);
    if (held?.state !== "open" || rung === undefined || !mayPlay(drill, standing, history.placed)) return [];
    return [{ work: estimateOn(rung, held, aim), lot: chance.uniform() }];
  });
  const off = ({ chance: p }: WorkEstimate): number => Math.round(1000 * Math.abs(p - aim.target));
  return found.sort((a, b) => off(a.work) - off(b.work) || a.lot - b.lot).map(({ work }) => work);
}

function estimateOn(rung: Rung, held: DrillStanding, aim: Aim): WorkEstimate {
  return { rung, chance: chanceAt(rung, aim), cleanNeeded: cleanNeededOn(rung, held) };
}

/** Chance of a clean take on a rung, 0 to 1. */
export function chanceAt(rung: Rung, { belief, demands }: Aim): number {
  return cleanChance(belief, demands.of(rung).demand);
}

/** Clean takes in a row that would open the gate of a rung now; one where it was open before. */
function cleanNeededOn({ drill, settings }: Rung, held: DrillStanding): number {
  const shown = rungStanding(held, settingsText(settings));
  if (shown?.credit !== undefined) return 1;
  const outcomes = shown?.outcomes.slice(shown.from) ?? "";
  for (let more = 1; more < MOST_NEEDED; more++) if (weigh(drill.gate, outcomes + "w".repeat(more)).met) return more;
  return MOST_NEEDED;
}

/** The first rung of every drill that may be played, for the warm-up, the likeliest to be clean first. */
export function easyRungs(
  curriculum: Curriculum,
  standing: Standing,
  { history, aim }: { readonly history: History; readonly aim: Aim },
): readonly { readonly rung: Rung; readonly chance: number }[] {
  return curriculum.drills
    .filter((drill) => mayPlay(drill, standing, history.placed))
    .map((drill) => {
      const rung = rungs(drill).at(0);
      return { rung, chance: chanceAt(rung, aim) };
    })
    .sort((a, b) => b.chance - a.chance);
}
