import {
  add,
  compare,
  type Fraction,
  fraction,
  fractionText,
  multiply,
  problemsIn,
  resultOf,
  type Worded,
  ZERO,
} from "../../base/index.js";
import type { MeterChangeDocument, PatternDocument } from "../../schema/index.js";
import { barLength, type Meter, meterText, parseMeter, parseSpan, resolveSpan, type Swing } from "../../time/index.js";
import { problem } from "../codes.js";
import type { Bar } from "../model.js";
import type { Problem, Result } from "../problem.js";
import { say } from "../say.js";

/** Most bars of a pattern. Our choice: a phrase to be learnt by heart is far shorter, and the work on hostile files is bounded. */
const MOST_BARS = 1000;

/** Most notes of a line. Our choice: 128 bars of thirty-second notes fit. Without a limit a short line of similes could fill the memory. */
export const MOST_NOTES_IN_LINE: number = 5000;

/** The bars of a pattern, against which its lines are read. */
export interface Frame {
  readonly bars: readonly Bar[];
  readonly length: Fraction;
  /** 0 when there is none. */
  readonly pickup: Fraction;
  /** Absent when the notes are straight. */
  readonly swing?: Swing;
}

/** The keys of a pattern that say which bars it has. */
export type FrameDocument = Pick<PatternDocument, "meter" | "meter-changes" | "bars" | "pick-up">;

/**
 * Compiles the bars of a pattern with their positions and meters, and its pick-up.
 *
 * Problems: those of `parseMeter` and `parseSpan`, BAR_COUNT_OUT_OF_RANGE, METER_CHANGE_MISPLACED, PICKUP_TOO_LONG; pointers are relative
 * to the document.
 */
export function compileFrame(document: FrameDocument): Result<Frame> {
  const problems: Problem[] = [];
  const count = document.bars;
  if (!Number.isInteger(count) || count < 1 || count > MOST_BARS) {
    const message = say("pattern-problem.bar-count-out-of-range", { most: MOST_BARS, found: `${count}` });
    problems.push(problem("BAR_COUNT_OUT_OF_RANGE", message, { pointer: "/bars" }));
  }
  const first = parseMeter(document.meter);
  problems.push(...problemsIn(first, "/meter"));
  const changes = readChanges(document["meter-changes"] ?? [], count, problems);
  if (!first.ok || problems.some((p) => p.severity === "error")) return { ok: false, problems };
  const bars = layBars(count, first.value, changes);
  const pickup = readPickup(document["pick-up"], first.value, problems);
  const last = bars[bars.length - 1]!;
  return resultOf({ bars, length: add(last.position, barLength(last.meter)), pickup }, problems);
}

/** The text of a length, in units of the meter's lower number where it is a whole number of them ("7/8", "4/4"), so that a reader can compare it with the meter. */
export function lengthText(length: Fraction, meter: Meter): string {
  const counted = multiply(length, fraction(meter.lower));
  return counted.d === 1 ? `${counted.n}/${meter.lower}` : fractionText(length);
}

function readChanges(
  changes: readonly MeterChangeDocument[],
  count: number,
  problems: Problem[],
): ReadonlyMap<number, Meter> {
  const meters = new Map<number, Meter>();
  let previous = 1;
  changes.forEach((change, i) => {
    const meter = parseMeter(change.meter);
    problems.push(...problemsIn(meter, `/meter-changes/${i}/meter`));
    if (!Number.isInteger(change.bar) || change.bar <= previous || change.bar > count) {
      const given = { bars: count, found: `${change.bar}`, before: previous };
      const message = say("pattern-problem.meter-change-misplaced", given);
      const where = { pointer: `/meter-changes/${i}/bar` };
      problems.push(problem("METER_CHANGE_MISPLACED", message, where, changeRemedy(previous, count)));
    } else {
      previous = change.bar;
      if (meter.ok) meters.set(change.bar, meter.value);
    }
  });
  return meters;
}

function layBars(count: number, first: Meter, changes: ReadonlyMap<number, Meter>): Bar[] {
  const bars: Bar[] = [];
  let meter = first;
  let position = ZERO;
  for (let number = 1; number <= count; number++) {
    meter = changes.get(number) ?? meter;
    bars.push({ number, position, meter });
    position = add(position, barLength(meter));
  }
  return bars;
}

function readPickup(text: string | undefined, meter: Meter, problems: Problem[]): Fraction {
  if (text === undefined) return ZERO;
  const span = parseSpan(text);
  problems.push(...problemsIn(span, "/pick-up"));
  if (!span.ok) return ZERO;
  const length = resolveSpan(span.value, meter);
  if (compare(length, barLength(meter)) < 0) return length;
  const message = say("pattern-problem.pickup-too-long", { meter: meterText(meter), found: text });
  const remedy = say("pattern-problem.pickup-too-long-remedy");
  problems.push(problem("PICKUP_TOO_LONG", message, { pointer: "/pick-up" }, remedy));
  return ZERO;
}

function changeRemedy(previous: number, count: number): Worded {
  if (previous >= count) return say("pattern-problem.meter-change-misplaced-remedy-none");
  return previous + 1 === count
    ? say("pattern-problem.meter-change-misplaced-remedy-last", { bar: count })
    : say("pattern-problem.meter-change-misplaced-remedy", { from: previous + 1, to: count });
}
