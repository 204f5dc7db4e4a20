import fc from "fast-check";
import { type Step, type Term, termOf } from "./term.js";

/** Steps of a term: more than a program gets through before it is killed, on any machine. */
export const STEPS = 600;

/** The term of a seed up to a step, for one device whose program is killed from outside. */
export function killable(seed: number, until: number): Term {
  const [term] = fc.sample(termOf(STEPS), { seed, numRuns: 1 });
  const plain = (step: Step): Step => ({
    ...step,
    dies: [],
    device: 0,
    what: step.what === "two at once" ? "take" : step.what,
  });
  return { ...term!, tablet: false, steps: term!.steps.slice(0, until).map(plain) };
}
