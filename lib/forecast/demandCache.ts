import { type Drill, type Rung, scoreOf, settingsText } from "../drill/index.js";
import { type Demand, demandOf } from "./demand.js";

/** Demands, lengths (seconds, count-in included) and mixes of rungs, each worked out once. */
export interface DemandCache {
  of(rung: Rung): Asked;
}
interface Asked {
  readonly demand: Demand;
  readonly seconds: number;
  readonly mix: string;
}

/** Rungs kept of a drill at most: our choice. A plan looks at some dozens, a deadline at some hundreds. */
const KEPT = 2000;

/** What was worked out of the rungs of drills, as long as somebody holds the drill: plans of all students of a course share it. */
const known = new WeakMap<Drill, Map<number | string, Asked>>();

/** The cache. It keeps nothing that the drill does not say. */
export function demandCache(): DemandCache {
  return { of: askedOf };
}

function askedOf(rung: Rung): Asked {
  const of = known.get(rung.drill) ?? new Map<number | string, Asked>();
  known.set(rung.drill, of);
  // A preparation has no index.
  const place = rung.index < 0 ? settingsText(rung.settings) : rung.index;
  const found = of.get(place);
  if (found !== undefined) return found;
  const score = scoreOf(rung);
  const asked = { demand: demandOf(score), seconds: score.countIn + score.duration, mix: score.mix };
  if (of.size >= KEPT) of.clear();
  of.set(place, asked);
  return asked;
}
