import { type Random, random } from "../base/index.js";
import type { Curriculum } from "../curriculum/index.js";
import { type Drill, rungs } from "../drill/index.js";
import type { Traits } from "../forecast/index.js";
import { traitsAt } from "../forecast/index.js";
import { isCompleted } from "../progress/index.js";
import type { Standing } from "../schema/index.js";
import { climbs, type Part, partOf } from "./climbing.js";
import { outlookText } from "./outlookText.js";
import { PAUSE_SECONDS } from "./takeSlot.js";
import type { Aim } from "./workEstimate.js";

/** Whether something will be ready by a day. */
export interface Outlook {
  /** ISO 8601 date. */
  readonly on: string;
  /** The drills to be completed by then, in the order they will be. */
  readonly drills: readonly string[];
  readonly days: number;
  /** Takes of new work there is time for, about. */
  readonly takes: number;
  /** Chance that all of them are complete by then, 0 to 1, and the standard error with which it was worked out. */
  readonly chance: number;
  readonly samplingError: number;
  readonly says: string;
}

export interface OutlookTerms {
  readonly on: string;
  readonly days: number;
  readonly drills: readonly Drill[];
  readonly minutes: number;
  readonly daysAWeek: number;
  readonly aim: Aim;
  readonly seed: number | string;
}

/** Share of a session that goes into new work; the rest is warm-up, review and rests. Our choice, about what plans come out at. */
const NEW_WORK_SHARE = 0.6;
/** Ways it may go that are tried: our choice; the chance is then known to 3.5 points in a hundred or better. */
const WAYS = 200;
/** Everything that has to be completed for a drill to be, itself last. */
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
 * The chance that some drills are complete by a day: players drawn from the belief go through the rungs take by take, their gates and
 * easing as they are, getting steadier with practice as believed, until the time is up. Nothing left to do is chance 1.
 */
export function outlookFor(standing: Standing, terms: OutlookTerms): Outlook {
  const { on, days, drills, minutes, daysAWeek, aim, seed } = terms;
  const seconds = Math.floor((days * daysAWeek) / 7) * minutes * 60 * NEW_WORK_SHARE;
  const parts = drills.map((drill) => partOf(drill, standing));
  const each =
    parts[0] === undefined ? 0 : aim.demands.of(rungs(parts[0].drill).at(parts[0].index)).seconds + PAUSE_SECONDS;
  const takes = each === 0 ? 0 : Math.floor(seconds / each);
  const left = parts.reduce((sum, { drill, index }) => sum + rungs(drill).count - index, 0);
  const chance = random(`${seed}/outlook`);
  let reached = 0;
  // The gate of every rung takes a take at the least, so that there is nothing to try when there are more rungs than takes.
  const hopeless = left > seconds / shortest(parts, aim);
  if (!hopeless) {
    const players = drawn(aim, chance);
    for (const traits of players) if (climbs(parts, traits, { seconds, aim, chance })) reached++;
  }
  const share = drills.length === 0 ? 1 : hopeless ? 0 : reached / WAYS;
  // Rule of succession, so that the error is not 0 where all or none succeeded.
  const fair = (reached + 1) / (WAYS + 2);
  const samplingError = drills.length === 0 || hopeless ? 0 : Math.sqrt((fair * (1 - fair)) / WAYS);
  const names = drills.map(({ name }) => name);
  return {
    on,
    drills: names,
    days,
    takes,
    chance: share,
    samplingError,
    says: outlookText({ on, names, days, takes, left, share, hopeless }),
  };
}

function shortest(parts: readonly Part[], { demands }: Aim): number {
  // The top of a tempo ladder is its shortest take; the bottom may be the longest.
  const ends = parts.flatMap(({ drill, index }) => [rungs(drill).at(index), rungs(drill).at(rungs(drill).count - 1)]);
  return Math.max(1, Math.min(...ends.map((rung) => demands.of(rung).seconds)));
}

/** Players as likely as they are believed to be, one for each way. */
function drawn({ belief }: Aim, chance: Random): readonly Traits[] {
  const { weight } = belief.particles;
  const start = chance.uniform();
  let from = 0;
  let reached = weight[0]!;
  return Array.from({ length: WAYS }, (_, i) => {
    while (reached < (i + start) / WAYS && from < weight.length - 1) reached += weight[++from]!;
    return traitsAt(belief.particles, from);
  });
}
