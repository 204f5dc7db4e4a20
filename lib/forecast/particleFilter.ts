import { type Random, random } from "../base/index.js";
import type { Belief } from "./belief.js";
import { recalibrated } from "./calibration.js";
import { meanChances } from "./forecast.js";
import { afterPractice } from "./learningCurve.js";
import { logLikelihood, type Observation } from "./likelihood.js";
import { beliefOn } from "./newDay.js";
import { type Particles, resample, traitsAt } from "./particles.js";

/** SD of the random walk of a player's noise from take to take (its logarithm). Our choice. */
const WALK_NOISE = 0.02;
/** SD of the random walk of the usual tempo error from take to take, as a ratio of tempo. Our choice. */
const WALK_TEMPO = 0.002;
/** Effective sample size below which particles are resampled, as a share of their number (Liu & Chen 1998, from memory). */
const LEAST_EFFECTIVE = 0.5;

/**
 * Posterior after one more take, by a particle filter (Gordon, Salmond & Smith 1993, from memory): Bayes' rule over the particles,
 * resampling when few particles have most of the weight, then the practice that the take was. An unclear take tells how often takes are unclear, and
 * nothing of the player's time. With a day the belief is first brought to that day. The belief given is left as it was.
 * The same takes in the same order give the same posterior.
 *
 * @example
 * updateBelief(priorBelief(), observationOf(demandOf(score), { verdict: "beyond" })).takes // 1
 */
export function updateBelief(before: Belief, observation: Observation): Belief {
  const { day, demand, verdict } = observation;
  const belief = day === undefined ? before : beliefOn(before, day);
  const { calibration, takes, last } = belief;
  const chance = random(`take ${takes + 1}`);
  const chances = meanChances(belief.particles, demand);
  const weighted = verdict === "unclear" ? belief.particles : reweighted(belief.particles, observation);
  const effective = 1 / weighted.weight.reduce((sum, each) => sum + each ** 2, 0);
  const drawn = effective < LEAST_EFFECTIVE * weighted.weight.length ? resample(weighted, chance) : weighted;
  return {
    ...belief,
    particles: practise(drawn, chance),
    calibration: recalibrated(calibration, demand, { chances, verdict }),
    takes: takes + 1,
    ...(last === undefined ? {} : { last: { ...last, takes: last.takes + 1 } }),
  };
}

/** Bayes' rule over the particles. */
function reweighted(particles: Particles, observation: Observation): Particles {
  const logs = particles.weight.map((_, i) => logLikelihood(traitsAt(particles, i), observation));
  // The largest likelihood is taken out of all, so that not all of them round to 0.
  const top = logs.reduce((most, each) => Math.max(most, each), Number.NEGATIVE_INFINITY);
  const weight = particles.weight.map((before, i) => before * Math.exp(logs[i]! - top));
  const total = weight.reduce((sum, each) => sum + each, 0);
  return { ...particles, weight: weight.map((each) => each / total) };
}

/** Particles after one take of practice: the learning curve, and a random walk for what it does not explain. */
function practise(particles: Particles, chance: Random): Particles {
  const { motor, tempo, excess } = particles.traits;
  const next = { ...particles.traits, motor: motor.slice(), excess: excess.slice(), tempo: tempo.slice() };
  for (let i = 0; i < motor.length; i++) {
    const after = afterPractice(traitsAt(particles, i), 1);
    next.motor[i] = after.motor + WALK_NOISE * chance.normal();
    next.excess[i] = after.excess;
    next.tempo[i]! += WALK_TEMPO * chance.normal();
  }
  return { ...particles, traits: next };
}
