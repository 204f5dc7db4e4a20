import { add, compare, type Fraction } from "../base/index.js";
import { pitchClasses, scaleText } from "../pattern/index.js";
import type { OpenStretch } from "../schema/index.js";
import { scaleMoved } from "./openStretches.js";
import { barsTouched } from "./scoreBars.js";
import type { Stretch } from "./stretch.js";
import type { TakeContext } from "./takeContext.js";

/** The open stretches with their scale, moved along with the key. */
export function scoreOpen({ drill, pattern, bars, time, open }: TakeContext): readonly OpenStretch[] {
  if (drill.open === undefined) return [];
  const scale = scaleMoved(drill.open.scale, drill.pattern.key, pattern.key);
  const subdivision = time.length(drill.open.subdivision);
  return open.map((stretch) => ({
    from: time.at(stretch.from),
    to: time.at(stretch.to),
    bars: barsTouched(stretch, bars),
    scale: scaleText(scale),
    pitchClasses: pitchClasses(scale),
    grid: gridOf(stretch, drill.open!.subdivision, time),
    subdivision,
  }));
}

/** When each subdivision of the stretch falls, seconds, swing included. */
function gridOf({ from, to }: Stretch, subdivision: Fraction, time: TakeContext["time"]): readonly number[] {
  const grid: number[] = [];
  for (let position = from; compare(position, to) < 0; position = add(position, subdivision))
    grid.push(time.at(position));
  return grid;
}
