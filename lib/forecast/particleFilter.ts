import { type Random, random } from "../base/index.js";
import type { Belief } from "./belief.js";
import { chancesOf } from "./chances.js";
import { afterPractice } from "./learningCurve.js";
import { logLikelihood, type Observation } from "./likelihood.js";
import { updateShift } from "./logOddsShift.js";
import { type Particles, resample, traitsAt } from "./particles.js";

/** SD of the random walk of a player's noise from take to take (its logarithm). Our choice. */
const WALK_NOISE = 0.02;
/** SD of the random walk of the usual tempo error from take to take, as a ratio of tempo. Our choice. */
const WALK_TEMPO = 0.002;
/** Effective sample size below which particles are resampled, as a share of their number (Liu & Chen 1998, from memory). */
const LEAST_EFFECTIVE = 0.5;

/**
 * Posterior after one more take, by a particle filter (Gordon, Salmond & Smith 1993, from memory): Bayes' rule over the particles,
 * resampling when few particles have most of the weight, then the practice that the take was. The belief given is left as it was.
 * The same takes in the same order give the same posterior.
 *
 * @example
 * updateBelief(priorBelief(), observationOf(demandOf(score), { verdict: "beyond" })).takes // 1
 */
export function updateBelief(belief: Belief, observation: Observation): Belief {
  const { particles, shift, takes } = belief;
  const count = particles.weight.length;
  const logs = new Float64Array(count);
  let clean = 0;
  let top = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < count; i++) {
    const traits = traitsAt(particles, i);
    logs[i] = logLikelihood(traits, observation);
    top = Math.max(top, logs[i]!);
    clean += particles.weight[i]! * chancesOf(traits, observation.demand).clean;
  }
  // The largest likelihood is taken out of all, so that not all of them round to 0.
  const weight = particles.weight.map((before, i) => before * Math.exp(logs[i]! - top));
  const total = weight.reduce((sum, each) => sum + each, 0);
  for (let i = 0; i < count; i++) weight[i]! /= total;
  const chance = random(`take ${takes + 1}`);
  const effective = 1 / weight.reduce((sum, each) => sum + each ** 2, 0);
  const weighted = { ...particles, weight };
  const drawn = effective < LEAST_EFFECTIVE * count ? resample(weighted, chance) : weighted;
  return {
    ...belief,
    particles: practise(drawn, chance),
    shift: updateShift(shift, clean, observation.verdict === "within"),
    takes: takes + 1,
  };
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
