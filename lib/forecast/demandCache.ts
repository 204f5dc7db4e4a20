import { type Rung, scoreOf, settingsText } from "../drill/index.js";
import { type Demand, demandOf } from "./demand.js";

/** Demands, lengths (seconds, count-in included) and mixes of rungs, each worked out once. */
export interface DemandCache {
  of(rung: Rung): { readonly demand: Demand; readonly seconds: number; readonly mix: string };
}

/** Rungs kept at most: our choice. A plan looks at some dozens, a deadline at some hundreds. */
const KEPT = 2000;

/** An empty cache. */
export function demandCache(): DemandCache {
  const known = new Map<string, ReturnType<DemandCache["of"]>>();
  return {
    of(rung) {
      // A preparation has no index.
      const place = rung.index < 0 ? settingsText(rung.settings) : rung.index;
      const key = `${rung.drill.name}\n${place}`;
      let found = known.get(key);
      if (found === undefined) {
        const score = scoreOf(rung);
        found = { demand: demandOf(score), seconds: score.countIn + score.duration, mix: score.mix };
        if (known.size >= KEPT) known.clear();
        known.set(key, found);
      }
      return found;
    },
  };
}
