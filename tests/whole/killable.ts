import fc from "fast-check";
import { type Step, type Term, termOf } from "./term.js";

/** The term of a seed, for one device whose program is killed from outside. */
export function killable(seed: number, steps: number): Term {
  const [term] = fc.sample(termOf(steps), { seed, numRuns: 1 });
  const plain = (step: Step): Step => ({
    ...step,
    dies: [],
    device: 0,
    what: step.what === "two at once" ? "take" : step.what,
  });
  return { ...term!, tablet: false, steps: term!.steps.map(plain) };
}
