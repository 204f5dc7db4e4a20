import { type Random, random } from "../base/index.js";
import type { Day } from "../time/index.js";
import type { Belief } from "./belief.js";
import { afterPractice } from "./learningCurve.js";
import { traitsAt } from "./particles.js";

/** SD of a player's form from day to day, in the logarithm of their noise. Our choice. */
const USUAL_FORM = 0.06;
/** Chance of a bad day, and SD of by how much it raises the logarithm of the noise. Our choice. */
const BAD_DAY = { chance: 0.15, sd: 0.4 } as const;
/** Share of what the last day of practice taught that is lost with each day since, and after how many days no more is. Our choice, as little is published for such tasks. */
const FORGOTTEN = { share: 0.1, days: 5 } as const;

/**
 * What is believed of a player on a day: on a new one their form is drawn anew, mostly near the usual, now and then much worse, and a part of what the last
 * day of practice taught is forgotten. On the same day, or an earlier one, the belief as it is.
 *
 * @example
 * beliefOn(priorBelief(), 20000).takes // 0
 */
export function beliefOn(belief: Belief, day: Day): Belief {
  const { last, particles } = belief;
  if (last !== undefined && day <= last.day) return belief;
  const chance = random(`day ${day} after take ${belief.takes}`);
  const form = particles.traits.form.map(() => drawForm(chance));
  const back = last === undefined ? 0 : FORGOTTEN.share * Math.min(FORGOTTEN.days, day - last.day) * last.takes;
  const motor = particles.traits.motor.slice();
  const excess = particles.traits.excess.slice();
  if (back > 0)
    for (let i = 0; i < motor.length; i++) {
      const before = afterPractice(traitsAt(particles, i), -back);
      motor[i] = before.motor;
      excess[i] = before.excess;
    }
  return {
    ...belief,
    particles: { ...particles, traits: { ...particles.traits, form, motor, excess } },
    last: { day, takes: 0 },
  };
}

/** The form of a day: by how much the logarithm of the noise is above the usual. */
export function drawForm(chance: Random): number {
  const isBad = chance.uniform() < BAD_DAY.chance;
  return isBad ? Math.abs(BAD_DAY.sd * chance.normal()) : USUAL_FORM * chance.normal();
}
