import { compare, fractionText, negate, ZERO } from "../base/index.js";
import type { Dropout } from "../schema/index.js";
import { barsTouched } from "./scoreBars.js";
import { joined, outside, type Stretch } from "./stretch.js";
import { takeLength } from "./takeBars.js";
import type { TakeContext } from "./takeContext.js";

/** The silences with their parts and re-entry. */
export function scoreDropouts(take: TakeContext): readonly Dropout[] {
  const parts = [...take.does]
    .filter(([, does]) => does === "drops")
    .map(([name]) => name)
    .sort();
  const total = takeLength(take.drill);
  return take.silences.map((silence) => {
    const to = take.time.at(silence.to);
    return {
      from: take.time.at(silence.from),
      to,
      fromPosition: fractionText(silence.from),
      toPosition: fractionText(silence.to),
      bars: barsTouched(silence, take.bars),
      parts,
      silent: !someDoes(take, "plays"),
      reentry: compare(silence.to, total) < 0 ? to : null,
    };
  });
}

/**
 * The stretches in which there is something to play to: the count-in, and the take except where all sounding parts drop. Goes by what
 * parts do, not by their notes: a part's own rests do not make a silence.
 */
export function audible(take: TakeContext): readonly Stretch[] {
  const whole = { from: negate(take.drill.countIn), to: takeLength(take.drill) };
  if (someDoes(take, "plays")) return outside(whole, []);
  const nothing = [{ from: ZERO, to: whole.to }];
  return outside(whole, someDoes(take, "drops") ? joined(take.silences) : nothing);
}

function someDoes(take: TakeContext, doing: "plays" | "drops"): boolean {
  return [...take.does.values()].includes(doing);
}
