import type { Message, Phrase, Worded } from "../base/index.js";
import { type Drill, type Rung, rungs, settingsText } from "../drill/index.js";
import {
  type Belief,
  calibrated,
  type Demand,
  type DemandCache,
  demandCache,
  forecast,
  meanChances,
  observationOf,
  priorBelief,
  TARGET,
  updateBelief,
} from "../forecast/index.js";
import type { TakeAssessed } from "../schema/index.js";
import { settingPhrases } from "../words/index.js";
import { firstTooHard } from "./rungBisection.js";
import { say } from "./say.js";

/** State of a placement: the search for the rung of a new student in a drill. */
export interface Placing {
  readonly drill: Drill;
  /** Posterior after the takes so far. */
  readonly belief: Belief;
  /** Chance of a clean take aimed at. */
  readonly target: number;
  /** The rung to play next; the rung to begin on once `done`. */
  readonly rung: Rung;
  readonly done: boolean;
  /** Takes played for the placement, in order. */
  readonly tried: readonly { readonly rung: Rung; readonly verdict: TakeAssessed["verdict"] }[];
  /** In a sentence, for the event by which the student is put there (`because`). */
  readonly says: string;
  /** The same sentence before it is worded. */
  readonly message: Message;
}

export interface PlacingOptions {
  /** What is known of the player already; the prior for any player when left out. */
  readonly belief?: Belief;
  /** Chance of a clean take on the rung found, from above 0 to below 1; 0.85 when left out. */
  readonly target?: number;
}

/** By how much the chance on the rung played may differ from the aim for the rung to fit. Our choice. */
const NEAR = 0.05;
/** Clean takes before the search ends, and how many more after a take beyond; the widest 90 % interval of the chance there at which it may. Our choice: one take says little of a player. */
const ENOUGH = { clean: 2, afterBeyond: 1, interval: 0.3 } as const;
/** Standard deviations of what is known by which a chance is taken to be lower while looking for a rung: too high is worse than too low. Our choice. */
const CAUTION = 0.5;
/** Takes of the easiest rung that are not clean before the search ends there, and takes of it at most. Our choice: one may have been a slip. */
const BOTTOM = { beyond: 2, most: 5 } as const;
/** Takes after which the search ends, on the best rung shown. Our choice. */
const MOST_TAKES = 12;
/** By how much chances of the easiest rungs may differ, and share of a chance above which another of the hardest is about the same: the order of climbing decides then. Our choice, above what the particles leave open. */
const ALIKE = { easiestBy: 0.15, hardest: 0.92 } as const;
/** Share of what the easiest rung offers that a harder one must offer, where even that falls a little short of the target. Our choice. */
const OFFERED = 0.85;
/** By how much the easiest rung may fall short of the target and still have harder ones looked at. Our choice. */
const NEARLY = 0.1;
/** Rungs that are put in the order of difficulty by the forecast at most; more are searched in the order of climbing. Our choice, for a tenth of a second. */
const MOST_ORDERED = 64;

/**
 * Begins the placement of a new student in a drill: play `rung`, assess it, give the finding's figures to `placeAfter`, and so on until
 * `done`. The rung asked for is the hardest whose chance of a clean take does not fall short of the target, by the posterior so far: by difficulty, wherever
 * it lies on the ladders; with more than 64 rungs the last before the chance falls short, found by bisection, however many there are.
 *
 * Throws `RangeError` for a target that is no chance.
 *
 * @example
 * beginPlacing(drill).rung // what to play first
 */
export function beginPlacing(drill: Drill, { belief = priorBelief(), target = TARGET }: PlacingOptions = {}): Placing {
  if (!(target > 0 && target < 1)) throw new RangeError(`the chance aimed at must lie between 0 and 1, got ${target}`);
  const { rung } = fitting(drill, belief, { target, demands: demandCache() });
  return { drill, belief, target, rung, done: false, tried: [], ...say("plan.placing.begun") };
}

/**
 * Next state of a placement, after a take of `placing.rung`. It is done when enough clean takes were played on a rung that fits or on ones as hard and further on: two, or three where a take
 * was beyond tolerance, so that the tolerance is met where the student is placed and not by luck; or when even the easiest rung is too hard, by two takes at least, on that; or
 * after five that could not be judged, on the first; or after 12 takes, on the hardest rung within reach that was played clean.
 *
 * `shown` is the event "take assessed" that `decide` writes of the take, or what that says of it: the verdict and `measured`, the figures of the finding in milliseconds. Three of them are
 * learnt from: `driftMs` and `standardErrorMs` of the silence with the largest drift (`finding.dropouts`), and `accompaniedMs` (`finding.steadiness.accompaniedMs`). What could not be measured
 * is left out; without any, the verdict alone is learnt from, and the search takes longer.
 *
 * Throws `RangeError` when the placement was done before.
 *
 * @example
 * placeAfter(beginPlacing(drill), { verdict: "within", measured: { driftMs: -12, standardErrorMs: 6, accompaniedMs: 14 } }).tried.length // 1
 */
export function placeAfter(placing: Placing, shown: Pick<TakeAssessed, "verdict" | "measured">): Placing {
  const { drill, target } = placing;
  if (placing.done) throw new RangeError("this student has been placed; begin anew to place them again");
  const demands = demandCache();
  const { demand } = demands.of(placing.rung);
  const belief = updateBelief(placing.belief, observationOf(demand, shown));
  const tried = [...placing.tried, { rung: placing.rung, verdict: shown.verdict }];
  const { rung: next, isEasiest } = fitting(drill, belief, { target, demands });
  const now = { ...placing, belief, tried };
  const here = forecast(belief, demand);
  const chanceOn = (rung: Rung): number => cautiousChance(belief, demands.of(rung).demand);
  const clean = tried.filter(({ verdict }) => verdict === "within").map(({ rung }) => rung);
  const own = chanceOn(placing.rung);
  const fits =
    next.index === placing.rung.index || Math.min(Math.abs(own - target), Math.abs(own - chanceOn(next))) <= NEAR;
  const shownThere = clean.filter(
    (rung) => rung.index === placing.rung.index || (rung.index > placing.rung.index && chanceOn(rung) <= own),
  ).length;
  const enough = ENOUGH.clean + (tried.some(({ verdict }) => verdict === "beyond") ? ENOUGH.afterBeyond : 0);
  const sure = shownThere >= enough && here.interval[1] - here.interval[0] <= ENOUGH.interval;
  if (shown.verdict === "within" && fits && sure)
    return placed(now, placing.rung, say("plan.placing.by-forecast", { percent: Math.round(100 * here.clean) }));
  const onEasiest = tried.filter(({ rung }) => rung.index === next.index);
  const beyond = onEasiest.filter(({ verdict }) => verdict === "beyond").length;
  const hopeless = beyond >= BOTTOM.beyond && here.clean < target;
  if (isEasiest && next.index === placing.rung.index && (hopeless || onEasiest.length >= BOTTOM.most))
    return placed(now, next, say("plan.placing.no-easier"));
  const isUnheard = tried.length >= BOTTOM.most && tried.every(({ verdict }) => verdict === "unclear");
  if (isUnheard) return placed(now, rungs(drill).at(0), say("plan.placing.nothing-harder"));
  if (tried.length < MOST_TAKES) return { ...now, rung: next, ...say("plan.placing.looking", { takes: tried.length }) };
  const within = clean.filter((rung) => chanceOn(rung) >= Math.min(target, chanceOn(next)));
  const best = within.toSorted((a, b) => chanceOn(a) - chanceOn(b))[0] ?? rungs(drill).at(0);
  return placed(now, best, say(within.length > 0 ? "plan.placing.hardest" : "plan.placing.nothing-harder"));
}

function placed(placing: Placing, rung: Rung, { message: why }: Worded<Phrase>): Placing {
  const said = settingPhrases(settingsText(rung.settings));
  const settings = said.length === 0 ? [{ key: "setting.only-rung", parameters: {} }] : said;
  return {
    ...placing,
    rung,
    done: true,
    ...say("plan.placing.placed", { settings, takes: placing.tried.length, why }),
  };
}

/** A chance of a clean take as low as may well be. */
function cautiousChance({ particles, calibration }: Belief, demand: Demand): number {
  let square = 0;
  const mean = meanChances(particles, demand, ({ clean }, weight) => {
    square += weight * clean ** 2;
  });
  const sd = Math.sqrt(Math.max(0, square - mean.clean ** 2));
  return calibrated(calibration, demand, { chances: mean, shifts: "averaged" }).clean - CAUTION * sd;
}

/**
 * The hardest rung that does not fall short of the target, or of what the easiest offers where that nearly reaches it; of rungs about as hard the last to be climbed. Where all fall short it
 * is the easiest, of rungs about as easy the first. Drills of many rungs are searched in the order of climbing.
 */
function fitting(
  drill: Drill,
  belief: Belief,
  { target, demands }: { readonly target: number; readonly demands: DemandCache },
): { readonly rung: Rung; readonly isEasiest: boolean } {
  const all = rungs(drill);
  const chanceOn = (rung: Rung): number => cautiousChance(belief, demands.of(rung).demand);
  const leastOf = (most: number): number => (most < target - NEARLY ? target : Math.min(target, OFFERED * most));
  if (all.count > MOST_ORDERED) {
    const least = leastOf(chanceOn(all.at(0)));
    const first = firstTooHard(drill, (rung) => chanceOn(rung) < least);
    const index = first === undefined ? all.count - 1 : Math.max(0, first.index - 1);
    return { rung: all.at(index), isEasiest: index === 0 };
  }
  const found = Array.from({ length: all.count }, (_, i) => ({ rung: all.at(i), chance: chanceOn(all.at(i)) }));
  const most = Math.max(...found.map(({ chance }) => chance));
  const easiest = found.find(({ chance }) => chance >= most - ALIKE.easiestBy)!.rung;
  const within = found.filter(({ chance }) => chance >= leastOf(most));
  const hardest = Math.min(...within.map(({ chance }) => chance));
  const rung = within.findLast(({ chance }) => ALIKE.hardest * chance <= hardest)?.rung ?? easiest;
  return { rung, isEasiest: within.length === 0 || rung === easiest };
}
