import { type Random, random } from "../base/index.js";
import { chancesOf } from "./chances.js";
import { practised } from "./learning.js";
import { type Evidence, logLikelihood } from "./likelihood.js";
import { type Cloud, resampled, traitsAt } from "./particles.js";
import { beginShift, learnShift, type Shift } from "./shift.js";
import { ANYBODY, type Population, type Trait } from "./traits.js";

/**
 * What is believed of a player's traits: weighted points, each a player it may be, with the practice of every take played so far.
 * Plain data; give it back to `learn` with the next take.
 */
export interface Belief {
  readonly population: Population;
  readonly cloud: Cloud;
  /** By how much forecasts have to be shifted, as the forecasts made so far have shown. */
  readonly shift: Shift;
  /** Takes learnt from. */
  readonly takes: number;
}

/** Points of a cloud: our choice; the mean of a chance is then known to about one point in a hundred. */
const POINTS = 400;
/** SD of what a player's noise changes by from one take to the next for no reason that is known (its logarithm); our choice. */
const WANDERING = 0.02;
/** The same for the usual tempo error, a ratio of tempo. */
const WANDERING_TEMPO = 0.002;
/** The effective number of points below which a cloud is drawn afresh, as a share of all (Liu & Chen 1998, from memory). */
const TOO_FEW = 0.5;

/** What is believed of somebody of whom no take is known: any player of a population. */
export function believe(population: Population = ANYBODY): Belief {
  const chance = random("a player of whom nothing is known");
  const draw = (trait: Exclude<Trait, "first">): Float64Array =>
    Float64Array.from({ length: POINTS }, () => population[trait].mean + population[trait].sd * chance.normal());
  const motor = draw("motor");
  const cloud: Cloud = {
    weight: new Float64Array(POINTS).fill(1 / POINTS),
    traits: {
      motor,
      clock: draw("clock"),
      bias: draw("bias"),
      tempo: draw("tempo"),
      pull: draw("pull"),
      excess: draw("excess"),
      rate: draw("rate"),
      lapse: draw("lapse"),
      first: motor.slice(),
    },
  };
  return { population, cloud, shift: beginShift(population.shift), takes: 0 };
}

/**
 * The belief after one more take: Bayes' rule over the points (a particle filter; Gordon, Salmond & Smith 1993, from memory), then the
 * practice the take was. The same takes in the same order give the same belief.
 */
export function learn(belief: Belief, evidence: Evidence): Belief {
  const { cloud, shift, takes } = belief;
  const count = cloud.weight.length;
  const logs = new Float64Array(count);
  let clean = 0;
  let top = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < count; i++) {
    const traits = traitsAt(cloud, i);
    logs[i] = logLikelihood(traits, evidence);
    top = Math.max(top, logs[i]!);
    clean += cloud.weight[i]! * chancesOf(traits, evidence.demand).clean;
  }
  const weight = cloud.weight.map((before, i) => before * Math.exp(logs[i]! - top));
  const total = weight.reduce((sum, each) => sum + each, 0);
  for (let i = 0; i < count; i++) weight[i]! /= total;
  const chance = random(`take ${takes + 1}`);
  const effective = 1 / weight.reduce((sum, each) => sum + each ** 2, 0);
  const learnt = { ...cloud, weight };
  const drawn = effective < TOO_FEW * count ? resampled(learnt, chance) : learnt;
  return {
    ...belief,
    cloud: withPractice(drawn, chance),
    shift: learnShift(shift, clean, evidence.verdict === "within"),
    takes: takes + 1,
  };
}

/** A cloud after one take of practice; beyond that, players wander. */
function withPractice(cloud: Cloud, chance: Random): Cloud {
  const { motor, tempo, excess } = cloud.traits;
  const next = { ...cloud.traits, motor: motor.slice(), excess: excess.slice(), tempo: tempo.slice() };
  for (let i = 0; i < motor.length; i++) {
    const after = practised(traitsAt(cloud, i), 1);
    next.motor[i] = after.motor + WANDERING * chance.normal();
    next.excess[i] = after.excess;
    next.tempo[i]! += WANDERING_TEMPO * chance.normal();
  }
  return { ...cloud, traits: next };
}
