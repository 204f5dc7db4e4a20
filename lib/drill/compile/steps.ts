import {
  add,
  compare,
  divide,
  type Fraction,
  floor,
  fraction,
  multiply,
  ONE,
  subtract,
  toNumber,
  type Worded,
} from "../../base/index.js";
import type { LadderDocument, SpanStepsDocument, TempoStepsDocument } from "../../schema/index.js";
import { decimalText, parseDecimal, parseTempo } from "../../time/index.js";
import type { Ladder, Parameter } from "../model.js";
import { stepsBetween, tempoAfter } from "../rung/ladder.js";
import { say } from "../say.js";
import { parseSilenceLengths, spellingsOf } from "../silenceLengths.js";
import { compileReach } from "./growth.js";
import type { LadderPlace } from "./place.js";
import { readSetting, type WrittenValue } from "./settings.js";
import { compileSpanSteps } from "./spanSteps.js";

/** The values of a ladder and their number. */
type Steps = Pick<Ladder, "count" | "values">;

/** Compiles the values of a ladder: a list, steps of lengths or steps of tempi. `undefined` when there are problems. */
export function compileSteps(parameter: Parameter, document: LadderDocument, place: LadderPlace): Steps | undefined {
  if (document.grows !== undefined) {
    const reached = compileReach(document.grows, place);
    return reached && compileList(parameter, reached, place);
  }
  const written = document[parameter]!;
  if (Array.isArray(written)) return compileList(parameter, written as readonly WrittenValue[], place);
  return parameter === "tempo"
    ? compileTempoSteps(written as TempoStepsDocument, place)
    : compileSpanSteps(written as SpanStepsDocument, place);
}

/** Smallest step of a ladder by per cent, in beats per minute: tempi are rounded to whole ones and must differ. */
const SMALLEST_STEP = 1;

/**
 * Compiles a ladder of tempi. Steps in beats per minute must reach `to` exactly and may lead down. A ladder by per cent ends at the last
 * rounded value that is not beyond `to`; advice names that value when it is not `to`, because powers of a percentage hardly ever meet a
 * round number.
 */
export function compileTempoSteps(document: TempoStepsDocument, place: Omit<LadderPlace, "names">): Steps | undefined {
  const { found, pointer } = place;
  const from = found.keep(parseTempo(document.from), `${pointer}/from`)?.perMinute;
  const to = found.keep(parseTempo(document.to), `${pointer}/to`)?.perMinute;
  const percent = /^(-?\d{1,4}(?:\.\d{1,4})?)\s*%$/.exec(String(document.by).trim())?.[1];
  const by = parseDecimal(percent ?? String(document.by));
  if (by === undefined) {
    const message = say("drill-problem.ladder-step-not-read", { found: JSON.stringify(document.by) });
    const percents = /^(-?\d{1,4}(?:\.\d{1,4})?)\s*(?:per\s*cent|percent|pct)$/i.exec(String(document.by).trim())?.[1];
    const remedy =
      percents === undefined ? stepRemedy(from, to) : say("drill-problem.write", { text: `${percents} %` });
    found.add("LADDER_STEP_NOT_READ", message, `${pointer}/by`, remedy);
  }
  if (!from || !to || !by) return undefined;
  const written = asWritten(document);
  if (by.n === 0) {
    const message = say("drill-problem.ladder-stands-still", written);
    found.add("LADDER_STANDS_STILL", message, `${pointer}/by`, stepRemedy(from, to));
    return undefined;
  }
  if (compare(to, from) * by.n < 0) {
    const message = say("drill-problem.ladder-wrong-way", { ...written, way: by.n > 0 ? "up" : "down" });
    const remedy = say("drill-problem.ladder-wrong-way-tempo-remedy", { by: flipped(written.by) });
    found.add("LADDER_WRONG_WAY", message, pointer, remedy);
    return undefined;
  }
  const ends = { from, to, by };
  return percent === undefined ? byBeats(document, ends, place) : byPercent(document, ends, place);
}

/** A step that leads from one tempo to the other, the nearest to 4 beats per minute, and one by per cent. */
function stepRemedy(from: Fraction | undefined, to: Fraction | undefined): Worded {
  const way = from && to ? toNumber(subtract(to, from)) : 4;
  const step = [4, 5, 3, 6, 2, 8, 1].find((each) => way % each === 0) ?? Math.abs(way);
  const sign = way < 0 ? "-" : "";
  return say("drill-problem.ladder-step-remedy", { first: `${sign}${step}`, second: `${sign}5 %` });
}

function asWritten({ from, to, by }: TempoStepsDocument): {
  readonly from: string;
  readonly to: string;
  readonly by: string;
} {
  return { from: String(from), to: String(to), by: String(by) };
}

interface Ends {
  readonly from: Fraction;
  readonly to: Fraction;
  readonly by: Fraction;
}

function byBeats(
  document: TempoStepsDocument,
  { from, to, by }: Ends,
  { found, pointer }: Omit<LadderPlace, "names">,
): Steps | undefined {
  const steps = divide(subtract(to, from), by);
  if (steps.d === 1) return { count: steps.n + 1, values: { kind: "tempi", from, by } };
  const last = add(from, multiply(by, fraction(floor(steps))));
  const message = say("drill-problem.ladder-never-reaches-its-end", asWritten(document));
  const remedy = say("drill-problem.write-either", { first: decimalText(last), second: decimalText(add(last, by)) });
  found.add("LADDER_NEVER_REACHES_ITS_END", message, `${pointer}/to`, remedy);
  return undefined;
}

function byPercent(
  document: TempoStepsDocument,
  { from, to, by }: Ends,
  { found, pointer }: Omit<LadderPlace, "names">,
): Steps | undefined {
  const climb = { from, ratio: add(ONE, divide(by, fraction(100))) };
  if (climb.ratio.n <= 0) {
    const message = say("drill-problem.ladder-step-not-read-fall", { found: String(document.by) });
    found.add("LADDER_STEP_NOT_READ", message, `${pointer}/by`);
    return undefined;
  }
  // Steps are smallest where the tempo is slowest.
  const smallest = Math.min(toNumber(from), toNumber(to)) * Math.abs(toNumber(by)) * 0.01;
  if (smallest < SMALLEST_STEP) {
    const message = say("drill-problem.ladder-repeats-a-value-percent", asWritten(document));
    const remedy = say("drill-problem.ladder-repeats-a-value-percent-remedy");
    found.add("LADDER_REPEATS_A_VALUE", message, `${pointer}/by`, remedy);
    return undefined;
  }
  const beyond = (k: number): boolean => compare(tempoAfter(climb, k), to) * by.n > 0;
  let last = Math.max(0, Math.floor(stepsBetween(climb, to)) + 1);
  while (beyond(last)) last--;
  const end = tempoAfter(climb, last);
  if (compare(end, to) !== 0) {
    const message = say("drill-problem.ladder-stops-short", {
      ...asWritten(document),
      end: decimalText(end),
      next: decimalText(tempoAfter(climb, last + 1)),
    });
    found.add("LADDER_STOPS_SHORT", message, `${pointer}/to`, say("drill-problem.write", { text: decimalText(end) }));
  }
  return { count: last + 1, values: { kind: "tempi by ratio", ...climb } };
}

function flipped(by: string): string {
  return by.startsWith("-") ? by.slice(1) : `-${by}`;
}

function compileList(
  parameter: Parameter,
  written: readonly WrittenValue[],
  { names, found, pointer }: LadderPlace,
): Steps | undefined {
  if (written.length === 0) {
    const message = say("drill-problem.ladder-empty", { parameter });
    found.add("LADDER_EMPTY", message, pointer, say("drill-problem.ladder-empty-remedy"));
    return undefined;
  }
  const texts: string[] = [];
  const seen = new Map<string, number>();
  let clean = true;
  written.forEach((value, i) => {
    const text = found.keep(readSetting(parameter, value, names), `${pointer}/${i}`);
    if (text === undefined) {
      clean = false;
      return;
    }
    const lengths = parameter === "dropout" ? parseSilenceLengths(text) : undefined;
    // Two beats are half a bar of 4/4: lengths are compared in one unit.
    const same = lengths?.ok ? spellingsOf(lengths.value, names.pattern)[0]! : text;
    const earlier = seen.get(same);
    if (earlier !== undefined) {
      const message = say("drill-problem.ladder-repeats-a-value", { first: earlier + 1, second: i + 1, value: text });
      found.add("LADDER_REPEATS_A_VALUE", message, `${pointer}/${i}`, say("drill-problem.leave-one-out"));
      clean = false;
    }
    seen.set(same, i);
    texts.push(text);
  });
  return clean ? { count: texts.length, values: { kind: "list", texts } } : undefined;
}
