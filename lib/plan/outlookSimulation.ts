import type { Random } from "../base/index.js";
import { type Drill, rungCalled, rungs, settingsText } from "../drill/index.js";
import { afterPractice, chancesOf, meanShift, shiftLogOdds, type Traits } from "../forecast/index.js";
import { drillStanding, rungStanding, weigh } from "../progress/index.js";
import type { Standing } from "../schema/index.js";
import { PAUSE_SECONDS } from "./breaks.js";
import type { Aim } from "./workEstimate.js";

/** Takes after which the chances of a take are worked out anew. Our choice. */
const REFRESH = 20;

/** The part of a drill that is left to climb. */
export interface Part {
  readonly drill: Drill;
  /** Index of the student's rung. */
  readonly index: number;
  /** Outcomes of the takes on that rung in the present stay. */
  readonly outcomes: string;
}

/** What is left of a drill for a student: all of it when it is not open. */
export function partOf(drill: Drill, standing: Standing): Part {
  const held = drillStanding(standing, drill.name);
  const rung = held?.state === "open" ? rungCalled(drill, held.rung) : undefined;
  if (rung === undefined || held === undefined) return { drill, index: 0, outcomes: "" };
  const shown = rungStanding(held, settingsText(rung.settings));
  return { drill, index: rung.index, outcomes: shown?.outcomes.slice(shown.from) ?? "" };
}

/** One run of the simulation, take by take: whether a player with these traits completes all parts within `seconds`. */
export function completes(
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
      const to = nextIndex(drill, { index, stay, earned: earned.has(index) });
      if (to === index) continue;
      if (to > index) earned.add(index);
      // Going back, what was earned on the way has lapsed.
      else for (const each of [...earned]) if (each >= to) earned.delete(each);
      [index, stay, row] = [to, "", 0];
    }
  }
  return true;
}

/** Index of the rung after the takes of a stay: onward, back, or the same. */
function nextIndex(
  drill: Drill,
  { index, stay, earned }: { readonly index: number; readonly stay: string; readonly earned: boolean },
): number {
  if (stay.endsWith("w") && (earned || weigh(drill.gate, stay).met)) return index + 1;
  if (drill.goBack === undefined || !stay.endsWith("b")) return index;
  const { after, by } = drill.goBack;
  return new RegExp(`(?:bu*){${after}}$`).test(stay) ? Math.max(0, index - by) : index;
}
