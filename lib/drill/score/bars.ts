import { compare, fractionText } from "../../base/index.js";
import type { ScoreBar } from "../../schema/index.js";
import { meterText } from "../../time/index.js";
import type { Stretch } from "./stretch.js";
import type { TakeBar, TakeContext } from "./take.js";

/** The bars of the score, with their meters and chord symbols. */
export function scoreBars({ bars, pattern, time }: TakeContext): readonly ScoreBar[] {
  const chords = new Map<number, string>();
  pattern.bars.forEach((bar, i) => {
    const end = pattern.bars[i + 1]?.position ?? pattern.length;
    const inBar = pattern.chords.filter(
      ({ position }) => compare(position, bar.position) >= 0 && compare(position, end) < 0,
    );
    if (inBar.length > 0) chords.set(bar.number, inBar.map(({ text }) => text).join(" "));
  });
  return bars.map((bar) => {
    const chord = chords.get(bar.patternBar);
    return {
      bar: bar.number,
      position: fractionText(bar.position),
      at: time.at(bar.position),
      meter: meterText(bar.meter),
      phrase: bar.phrase,
      ...(chord === undefined ? {} : { chord }),
    };
  });
}

/** The numbers of the bars that a stretch overlaps. Found by bisection, so that many silences in a long take stay cheap. */
export function barsTouched(stretch: Stretch, bars: readonly TakeBar[]): readonly number[] {
  let [low, high] = [0, bars.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (compare(bars[middle]!.end, stretch.from) > 0) high = middle;
    else low = middle + 1;
  }
  const touched: number[] = [];
  for (let i = low; i < bars.length && compare(bars[i]!.position, stretch.to) < 0; i++) touched.push(bars[i]!.number);
  return touched;
}
