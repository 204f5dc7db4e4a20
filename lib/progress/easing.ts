import { type Drill, rungs, settingsText } from "../drill/index.js";
import type { DrillStanding, RungStanding } from "../schema/index.js";
import type { Consequence } from "./consequence.js";
import { rungIndex } from "./rungIndex.js";
import { changeText } from "./words.js";

/** The way back, when enough takes in a row were beyond tolerance; `undefined` when they were not or the drill never eases. */
export function easingOf(
  drill: Drill,
  held: DrillStanding,
  { rung, stay }: { readonly rung: RungStanding; readonly stay: string },
): Consequence | undefined {
  if (drill.ease === undefined) return undefined;
  const { after, by } = drill.ease;
  const evidence: string[] = [];
  for (let i = stay.length - 1; i >= 0 && stay[i] !== "w" && evidence.length < after; i--) {
    if (stay[i] === "b") evidence.unshift(rung.takes[rung.from + i]!);
  }
  if (evidence.length < after) return undefined;
  const index = rungIndex(drill, rung.rung)!;
  const row = after === 1 ? "The last take was beyond tolerance" : `The last ${after} takes were beyond tolerance`;
  if (index === 0)
    return { what: "hold", reason: `${row}; this is the easiest rung of drill ${drill.name}.`, evidence };
  const target = Math.max(0, index - by);
  const to = settingsText(rungs(drill).at(target).settings);
  const lapsed = held.rungs
    .filter(({ credit, rung: earned }) => credit !== undefined && isBetween(rungIndex(drill, earned), target, index))
    .map(({ rung: earned }) => earned);
  return {
    what: "ease",
    reason: `${row}: back to ${changeText(rung.rung, to)}, and on from there when the gate is met anew.`,
    evidence,
    draft: { kind: "eased", drill: drill.name, from: rung.rung, to, after, evidence, lapsed },
  };
}

function isBetween(index: number | undefined, lowest: number, highest: number): boolean {
  return index !== undefined && index >= lowest && index <= highest;
}
