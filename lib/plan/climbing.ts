import type { Random } from "../base/index.js";
import { type Drill, rungs, settingsText } from "../drill/index.js";
import type { Traits } from "../forecast/index.js";
import { afterPractice, chancesOf, meanShift, rungCalled, shiftLogOdds } from "../forecast/index.js";
import { drillStanding, rungStanding, weigh } from "../progress/index.js";
import type { Standing } from "../schema/index.js";
import { PAUSE_SECONDS } from "./takeSlot.js";
import type { Aim } from "./workEstimate.js";

/** Takes after which the chance of a clean take is worked out anew: our choice. */
const REFRESH = 20;

/** What is left of a drill. */
export interface Part {
  readonly drill: Drill;
  readonly index: number;
  /** What was shown on that rung in the present stay. */
  readonly outcomes: string;
}

/** Where a student is in a drill; at its beginning when it is not open. */
export function partOf(drill: Drill, standing: Standing): Part {
  const held = drillStanding(standing, drill.name);
  const rung = held?.state === "open" ? rungCalled(drill, held.rung) : undefined;
  if (rung === undefined || held === undefined) return { drill, index: 0, outcomes: "" };
  const shown = rungStanding(held, settingsText(rung.settings));
  return { drill, index: rung.index, outcomes: shown?.outcomes.slice(shown.from) ?? "" };
}

/** Whether one player gets through the rungs left, take by take, before the time is up. */
export function climbs(
  parts: readonly Part[],
  traits: Traits,
  { seconds, aim, chance }: { readonly seconds: number; readonly aim: Aim; readonly chance: Random },
): boolean {
  const shift = meanShift(aim.belief.shift);
  let left = seconds;
  let now: Traits = traits;
  for (const { drill, index: start, outcomes } of parts) {
    const all = rungs(drill);
    const earned = new Set<number>();
    let index = start;
    let stay = outcomes;
    let row = 0;
    let [clean, unclear] = [0, 0];
    for (let taken = 0; index < all.count; taken++) {
      const { demand, seconds: length } = aim.demands.of(all.at(index));
      left -= length + PAUSE_SECONDS;
      if (left < 0) return false;
      if (taken % REFRESH === 0 && taken > 0) now = { ...now, ...afterPractice(now, REFRESH) };
      if (row === 0 || taken % REFRESH === 0) {
        const chances = chancesOf(now, demand);
        clean = shiftLogOdds(chances.clean, shift);
        unclear = chances.clean < 1 ? (chances.unclear * (1 - clean)) / (1 - chances.clean) : 0;
      }
      row++;
      const lot = chance.uniform();
      const letter = lot < clean ? "w" : lot < clean + unclear ? "u" : "b";
      stay += letter;
      const to = next(drill, { index, stay, earned: earned.has(index) });
      if (to === index) continue;
      if (to > index) earned.add(index);
      // Going back, what was earned on the way has lapsed.
      else for (const each of [...earned]) if (each >= to) earned.delete(each);
      [index, stay, row] = [to, "", 0];
    }
  }
  return true;
}
/** The rung a stay leads to: onward, back, or the same. */
function next(
  drill: Drill,
  { index, stay, earned }: { readonly index: number; readonly stay: string; readonly earned: boolean },
): number {
  if (stay.endsWith("w") && (earned || weigh(drill.gate, stay).met)) return index + 1;
  if (drill.ease === undefined || !stay.endsWith("b")) return index;
  const { after, by } = drill.ease;
  return new RegExp(`(?:bu*){${after}}$`).test(stay) ? Math.max(0, index - by) : index;
}
