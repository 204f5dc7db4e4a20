import { type ScaleLinear, scaleLinear } from "d3-scale";
import type { Score } from "../../../schema/index.js";
import { INK } from "../palette.js";
import { isIn, overlap, type Span } from "../phrases.js";
import { decimal, type Svg } from "../svg.js";
import { stroke, through } from "../symbols.js";
import { driftLimit } from "./description.js";
import type { Place, TakePicture } from "./rows.js";
import { bandPoint, traceAt } from "./rows.js";

/**
 * The asynchrony scale of a take, ms to px. It includes all matched notes, the whole band, and -30 to 30 ms. It includes the tolerances as far as
 * the played range keeps a third of the height.
 */
export function asynchronyScale(picture: TakePicture, plot: number): ScaleLinear<number, number> {
  const { score, finding, trace, played } = picture;
  let [low, high] = [-30, 30];
  const reach = (ms: number): void => {
    low = Math.min(low, ms);
    high = Math.max(high, ms);
  };
  for (const point of trace.map(bandPoint)) {
    reach(point.low);
    reach(point.high);
  }
  for (const [note, onset] of finding.pairs) reach(1000 * (played[onset]! - score.expected[note]!.at));
  const [least, most] = [2 * low - high, 2 * high - low];
  for (const dropout of score.dropouts) {
    const { drift, landing } = boundsOf(picture, dropout);
    for (const ms of [
      drift && drift.start + drift.limit,
      drift && drift.start - drift.limit,
      landing?.high,
      landing?.low,
    ])
      if (ms !== undefined) reach(Math.min(most, Math.max(least, ms)));
  }
  return scaleLinear([low, high], [plot, 0]).nice(4);
}

/** Draws the tolerances of drift, from the start to the end of each silence, and of landing; cut at the edges of the plot. */
export function toleranceMarks(picture: TakePicture, row: Span, { x, top, y }: Place): Svg {
  const lines: string[] = [];
  const brackets: string[] = [];
  const [low, high] = y.domain() as [number, number];
  const inside = (ms: number): number => Math.min(high, Math.max(low, ms));
  for (const dropout of picture.score.dropouts) {
    const { drift, landing } = boundsOf(picture, dropout);
    if (drift !== undefined && overlap(dropout, row)) {
      for (const side of [drift.limit, -drift.limit]) {
        const rate = side / (dropout.to - dropout.from);
        const leaves = dropout.from + (inside(drift.start + side) - drift.start) / rate;
        const [from, to] = [Math.max(row.from, dropout.from), Math.min(row.to, leaves)];
        const at = (when: number): [number, number] => [x(when), top + y(drift.start + rate * (when - dropout.from))];
        if (to > from) lines.push(through([at(from), at(to)]));
      }
    }
    if (landing === undefined || !isIn(dropout.landing!, row)) continue;
    // A limit outside the plot has no end stroke.
    const at = decimal(x(dropout.landing!) + 5);
    brackets.push(`M${at} ${decimal(top + y(inside(landing.high)))}V${decimal(top + y(inside(landing.low)))}`);
    for (const edge of [landing.high, landing.low])
      if (inside(edge) === edge) brackets.push(`M${at} ${decimal(top + y(edge))}h-4`);
  }
  return (
    stroke(lines.join(""), INK.ink, { width: 1.3, dash: "4 2.5" }) + stroke(brackets.join(""), INK.ink, { width: 1.8 })
  );
}

interface ToleranceBounds {
  /** Asynchrony at the start of the silence, and its largest change within tolerance until the end, ms. */
  readonly drift: { readonly start: number; readonly limit: number } | undefined;
  /** Smallest and largest asynchrony within tolerance at landing, ms. */
  readonly landing: { readonly low: number; readonly high: number } | undefined;
}

function boundsOf({ score, finding, trace }: TakePicture, dropout: Score["dropouts"][number]): ToleranceBounds {
  const start = traceAt(trace, dropout.from);
  const limit = driftLimit(score, dropout);
  const { landingMs } = score.tolerance;
  const judged = dropout.landing !== null && landingMs !== undefined && typeof finding.offsetMs === "number";
  return {
    drift: start === undefined || limit === undefined ? undefined : { start, limit },
    landing: judged
      ? { low: (finding.offsetMs as number) - landingMs, high: (finding.offsetMs as number) + landingMs }
      : undefined,
  };
}
