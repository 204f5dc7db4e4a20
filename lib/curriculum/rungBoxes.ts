import type { Drill, Ladder, Parameter } from "../drill/index.js";
import { type Stretch, sharedSteps } from "./sharedSteps.js";

/** How many rungs two drills share. The rungs of a drill fall into boxes, and two boxes share the product of what their sides share. */
export function sharedRungs(old: Drill, now: Drill): number {
  const [left, right] = [boxesOf(old), boxesOf(now)];
  const parameters = parametersOf(old);
  if (!sameMembers(parameters, parametersOf(now))) return 0;
  let count = 0;
  for (const a of left) {
    for (const b of right) {
      let product = 1;
      for (const parameter of parameters) {
        if (product === 0) break;
        product *= sharedSteps(a.get(parameter)!, b.get(parameter)!);
      }
      count += product;
    }
  }
  return count;
}

type Box = ReadonlyMap<Parameter, Stretch>;

/**
 * The rungs of a drill as disjoint boxes, one side for each setting. Box h holds the rungs in which ladder h is the highest that has
 * left its bottom: those above it are at the bottom, those below it anywhere they go after a restart.
 */
function boxesOf(drill: Drill): readonly Box[] {
  const fixed = (Object.entries(drill.fixed) as [Parameter, string][]).map(
    ([parameter, text]): [Parameter, Stretch] => {
      const ladder: Ladder = { parameter, count: 1, values: { kind: "list", texts: [text] }, restart: "bottom" };
      return [parameter, { ladder, first: 0, end: 1 }];
    },
  );
  const boxes: Box[] = [];
  for (let highest = -1; highest < drill.ladders.length; highest++) {
    const climbing = drill.ladders.map((ladder, i): [Parameter, Stretch] => {
      if (i > highest) return [ladder.parameter, { ladder, first: 0, end: 1 }];
      return [ladder.parameter, { ladder, first: i === highest ? 1 : restartOf(ladder), end: ladder.count }];
    });
    boxes.push(new Map([...fixed, ...climbing]));
  }
  return boxes;
}

function restartOf(ladder: Ladder): number {
  return ladder.restart === "bottom" ? 0 : Math.max(0, ladder.count - 1 - ladder.restart);
}

/** Every setting a drill's rungs have, stated or climbing. */
export function parametersOf(drill: Drill): readonly Parameter[] {
  return [...boxesOf(drill)[0]!.keys()];
}

function sameMembers(a: readonly string[], b: readonly string[]): boolean {
  return a.length === b.length && a.every((each) => b.includes(each));
}

/** All values a setting has in a drill, as a stretch of its ladder; a stated setting has one. */
export function everyValue(drill: Drill, parameter: Parameter): Stretch {
  const ladder = drill.ladders.find((each) => each.parameter === parameter);
  if (ladder !== undefined) return { ladder, first: 0, end: ladder.count };
  return boxesOf(drill)[0]!.get(parameter)!;
}
