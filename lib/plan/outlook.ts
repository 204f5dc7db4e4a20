import { type Message, type Phrase, type Random, random, type Worded } from "../base/index.js";
import type { Curriculum } from "../curriculum/index.js";
import { type Drill, rungs } from "../drill/index.js";
import { type Calibration, drawCalibration, systematicSample, type Traits, traitsAt } from "../forecast/index.js";
import { isCompleted } from "../progress/index.js";
import type { Standing } from "../schema/index.js";
import { PAUSE_SECONDS, type ShortRest } from "./breaks.js";
import { completes, MISSED, type Part, type Practice, partOf } from "./outlookSimulation.js";
import { say } from "./say.js";
import type { Aim } from "./workEstimate.js";

/** Whether something will be ready by a day. */
export interface Outlook {
  /** ISO 8601 date. */
  readonly on: string;
  /** The drills to be completed by then, in the order they will be. */
  readonly drills: readonly string[];
  readonly days: number;
  /** How the student is taken to practise: by the plan, obeyed or asked anew, or on their own rung alone. */
  readonly practises: Practice["by"];
  /** Takes of new work there is time for, about. */
  readonly takes: number;
  /** Chance that all of them are complete by then, 0 to 1. */
  readonly chance: number;
  /** Monte Carlo standard error of `chance`. */
  readonly samplingError: number;
  readonly says: string;
  /** The same before it is worded. */
  readonly message: Message;
}

export interface OutlookTerms {
  readonly on: string;
  readonly days: number;
  readonly drills: readonly Drill[];
  readonly minutes: number;
  readonly daysAWeek: number;
  readonly practises: Practice["by"];
  readonly rest: ShortRest;
  readonly aim: Aim;
  readonly seed: number | string;
}

/** Monte Carlo runs: at most, and over long times at least. Our choice: the standard error of the chance is then 3.5 or 6.5 points in a hundred at most. */
const RUNS = { most: 200, least: 60 } as const;
/** Sessions of all runs together, so that an outlook is worked out while somebody waits. Our choice. */
const SESSIONS = 8000;

/** The drills to complete for one drill to be complete, in order, itself last. Those that are complete already are left out. */
export function chainTo(curriculum: Curriculum, standing: Standing, drill: Drill): readonly Drill[] {
  const chain: Drill[] = [];
  const visit = (each: Drill): void => {
    if (chain.includes(each) || isCompleted(standing, each.name)) return;
    for (const need of each.needs) {
      const needed = curriculum.drills.find(({ name }) => name === need);
      if (needed !== undefined) visit(needed);
    }
    chain.push(each);
  };
  visit(drill);
  return chain;
}

/**
 * Monte Carlo estimate of the chance that some drills are complete by a day. Players are drawn from the posterior and go through the rungs
 * session by session and take by take, with the gates and going back of the drills, with practice, days of better and worse form, forgetting and
 * missed days as believed, until the time is up. Nothing left to do: chance 1.
 */
export function outlookFor(standing: Standing, terms: OutlookTerms): Outlook {
  const { on, days, drills, minutes, daysAWeek, practises, rest, aim, seed } = terms;
  const sessions = Math.floor((days * daysAWeek) / 7);
  const practice: Practice = { sessions, gap: 7 / daysAWeek, seconds: 60 * minutes, rest, by: practises };
  const seconds = sessions * practice.seconds;
  const parts = drills.map((drill) => partOf(drill, standing));
  const each =
    parts[0] === undefined ? 0 : aim.demands.of(rungs(parts[0].drill).at(parts[0].index)).seconds + PAUSE_SECONDS;
  const takes = each === 0 ? 0 : Math.floor((seconds * (1 - MISSED)) / (each + rest.seconds / rest.after));
  const left = parts.reduce((sum, { drill, index }) => sum + rungs(drill).count - index, 0);
  const chance = random(`${seed}/outlook`);
  let reached = 0;
  // The gate of every rung takes one take at the least. With more rungs than takes there is nothing to simulate.
  const hopeless = left > seconds / shortest(parts, aim);
  const runs = Math.max(RUNS.least, Math.min(RUNS.most, Math.floor(SESSIONS / Math.max(1, sessions))));
  if (!hopeless)
    for (const { traits, calibration } of draw(aim, runs, chance))
      if (completes(parts, traits, { practice, aim, calibration, chance })) reached++;
  // Laplace's rule of succession, so that nothing is sure which so many runs cannot tell.
  const fair = (reached + 1) / (runs + 2);
  const share = drills.length === 0 ? 1 : hopeless ? 0 : reached / runs;
  const samplingError = drills.length === 0 || hopeless ? 0 : Math.sqrt((fair * (1 - fair)) / runs);
  const names = drills.map(({ name }) => name);
  const said = outlookSaid({ on, names, days, takes, left, share, hopeless, practises });
  return { on, drills: names, days, practises, takes, chance: share, samplingError, ...said };
}

/** Seconds of the shortest take. */
function shortest(parts: readonly Part[], { demands }: Aim): number {
  // The top of a tempo ladder is its shortest take; the bottom may be the longest.
  const ends = parts.flatMap(({ drill, index }) => [rungs(drill).at(index), rungs(drill).at(rungs(drill).count - 1)]);
  return Math.max(1, Math.min(...ends.map((rung) => demands.of(rung).seconds)));
}

/** Players drawn from the posterior, one for each run. */
function draw(
  { belief: { particles, calibration } }: Aim,
  runs: number,
  chance: Random,
): readonly { readonly traits: Traits; readonly calibration: Calibration }[] {
  return Array.from(systematicSample(particles.weight, runs, chance.uniform()), (i) => ({
    traits: traitsAt(particles, i),
    calibration: drawCalibration(calibration, chance),
  }));
}

interface Said {
  readonly on: string;
  readonly names: readonly string[];
  readonly days: number;
  readonly takes: number;
  readonly left: number;
  readonly share: number;
  readonly hopeless: boolean;
  readonly practises: Practice["by"];
}

/** An outlook in one sentence. */
function outlookSaid({ on, names: drills, days, takes, left, share, hopeless, practises }: Said): Worded {
  if (drills.length === 0) return say("plan.outlook-complete", { on });
  if (hopeless) return say("plan.outlook-no-time", { on, drills, days, takes, left });
  const assumed = say("plan.practises", { by: practises === "the plan" ? "plan" : "rung" }).message;
  return say("plan.outlook", { on, drills, days, takes, left, chance: chancePhrase(share), assumed });
}

function chancePhrase(share: number): Phrase {
  const times = Math.max(1, Math.round(10 * share));
  if (share >= 0.95) return say("plan.chance", { chance: "almost-sure", times }).message;
  if (share >= 0.6) return say("plan.chance", { chance: "probable", times }).message;
  if (share > 0.4) return say("plan.chance", { chance: "even", times }).message;
  return say("plan.chance", { chance: share > 0.05 ? "improbable" : "almost-none", times }).message;
}
