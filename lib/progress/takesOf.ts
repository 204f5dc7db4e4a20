import type { Standing, TakeAssessed } from "../schema/index.js";
import { takeIn } from "./standing.js";

/** Finds what a standing has counted of the take an event is about; `undefined` for takes it has not counted. */
export function takesOf(standing: Standing): (event: TakeAssessed) => TakeAssessed | undefined {
  let asked = false;
  let known: Set<string> | undefined;
  return (event) => {
    // One question is answered soonest by looking through the lists; from the second on, a set is worth its making.
    if (asked) known ??= new Set(standing.drills.flatMap(({ rungs }) => rungs.flatMap(({ takes }) => takes)));
    asked = true;
    if (known?.has(event.take) === false) return undefined;
    const counted = takeIn(standing, event.take);
    return counted && { ...event, ...counted };
  };
}
