import { type Luck, PURPOSES } from "../students/luck.js";
import { OPEN, type Places } from "./climb.js";

/** What a policy sees before a take. */
export interface Sight {
  readonly places: Places;
  /** Takes played so far, of all drills. */
  readonly takes: number;
  /** For each drill the number of its latest take among all; -1 before the first. */
  readonly lastPlayed: Int32Array;
  readonly luck: Luck;
  /** The true chance of a clean take on the present rung of a drill: for who may know it. */
  chance(drill: number): number;
}

/** Decides which drill is played next; -1: none today. */
export interface Policy {
  drill(sight: Sight): number;
  /** The rung that is played instead of the present one, where it is not that. */
  rung?(present: number): number;
}

function openDrills({ state }: Places): readonly number[] {
  return Array.from(state, (each, drill) => (each === OPEN ? drill : -1)).filter((drill) => drill >= 0);
}

export type PolicyName = "current" | "turns" | "random" | "nothing" | "oracle" | "easiest";

/**
 * Ways to choose what is played. `current`: the first open drill of the course. `turns`: the drill longest not played. `random`: any open one. `nothing`: no take
 * at all. `oracle`: of the open drills the one whose take is cleanest by the true chances, which nobody knows. `easiest`: made to have the largest share of clean
 * takes: the lowest rung of the first drill for ever.
 */
export const POLICIES: Readonly<Record<PolicyName, Policy>> = {
  current: { drill: ({ places }) => places.state.indexOf(OPEN) },
  turns: {
    drill: ({ places, lastPlayed }) =>
      openDrills(places).reduce((best, each) => (best < 0 || lastPlayed[each]! < lastPlayed[best]! ? each : best), -1),
  },
  random: {
    drill: ({ places, luck, takes }) => {
      const open = openDrills(places);
      return open.length === 0 ? -1 : open[Math.floor(luck.uniform(takes, PURPOSES.choice) * open.length)]!;
    },
  },
  nothing: { drill: () => -1 },
  oracle: {
    drill: ({ places, chance }) =>
      openDrills(places).reduce((best, each) => (best < 0 || chance(each) > chance(best) ? each : best), -1),
  },
  easiest: { drill: () => 0, rung: () => 0 },
};
