import { ladderValue } from "../drill/index.js";
import { type Stretch, sharedSteps } from "./sharedSteps.js";

/** Values named of those that are gone; our choice: enough to recognise them, however many there are. */
const NAMED = 3;

/** What one side of a comparison has and the other has not. */
export interface GoneValues {
  readonly count: number;
  /** The first of them, in the order of the ladder. */
  readonly examples: readonly string[];
}

/** The values of a stretch that another does not have. Long ladders are not walked through: the examples are found by halving. */
export function goneValues(from: Stretch, to: Stretch): GoneValues {
  const goneBefore = (end: number): number => end - from.first - sharedSteps({ ...from, end }, to);
  const count = goneBefore(from.end);
  const examples: string[] = [];
  while (examples.length < Math.min(count, NAMED)) {
    // The least end before which one more is gone than have been named.
    let [low, high] = [from.first, from.end];
    while (high - low > 1) {
      const middle = Math.floor((low + high) / 2);
      if (goneBefore(middle) > examples.length) high = middle;
      else low = middle;
    }
    examples.push(ladderValue(from.ladder, high - 1));
  }
  return { count, examples };
}
