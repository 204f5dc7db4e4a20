import { add, compare, divide, type Fraction, failure, fraction, multiply, subtract, success } from "../base/index.js";
import type { Pattern } from "../pattern/index.js";
import { resolveSpan, type Span, spanText } from "../time/index.js";
import { drillProblem } from "./codes.js";
import { onlyMeter, parseLength, readLength, spanIn, UNITS } from "./length.js";
import type { Drill, Settings } from "./model.js";
import type { Result } from "./problem.js";
import { say } from "./rung/saySetting.js";

/** Most phrases of a take, as in the schema. Silences can grow over no more. */
export const MOST_PHRASES = 64;

/**
 * How long the silences of a take are: the first length holds for `each` phrases, the next for as many, and the last to the end of the
 * take. There is at least one length; with one, all silences are equal.
 */
export interface SilenceLengths {
  readonly lengths: readonly Span[];
  /** Number of phrases, from 1. */
  readonly each: number;
}

/**
 * Reads how long the silences of a take are: "1/2 bar", "1/2 bar to 1 1/2 bars by 1/2 bar each 2 phrases", or "1/2 bar then 2 bars each 1 phrase".
 * Without `each` a length holds for one phrase.
 *
 * Problems: those of `parseLength`; SETTING_NOT_READ for steps that do not reach their end, or that reach it after more than 64 phrases.
 */
export function parseSilenceLengths(text: string): Result<SilenceLengths> {
  const read = readSilenceLengths(text);
  if (read !== undefined) return success(read);
  for (const piece of piecesOf(text).pieces) {
    const length = parseLength(piece);
    if (!length.ok) return length;
  }
  const found = JSON.stringify(text.slice(0, 80));
  const message = say("setting-problem.setting-not-read-lengths", { most: MOST_PHRASES, found });
  return failure(drillProblem("SETTING_NOT_READ", message));
}

/** The same, without a word on why a text says none. */
export function readSilenceLengths(text: string): SilenceLengths | undefined {
  const { pieces, climbs, each } = piecesOf(text);
  const spans = pieces.map(readLength).filter((span) => span !== undefined);
  if (spans.length < pieces.length) return undefined;
  if (spans.length === 1 && each === undefined) return { lengths: spans, each: 1 };
  const phrases = each ?? 1;
  const lengths = climbs ? climbedLengths(spans as [Span, Span, Span], phrases) : spans;
  const isRead = lengths !== undefined && phrases >= 1 && lengths.length * phrases <= MOST_PHRASES;
  return isRead ? grouped(lengths, phrases) : undefined;
}

interface Pieces {
  readonly pieces: readonly string[];
  /** Whether they are the first, the last and the step. */
  readonly climbs: boolean;
  readonly each: number | undefined;
}

function piecesOf(text: string): Pieces {
  const [, body = text, count] = /^(.*?)\s+each\s+(\d{1,2})\s+phrases?$/.exec(text.trim()) ?? [];
  const range = /^(.+?)\s+to\s+(.+?)\s+by\s+(.+)$/.exec(body);
  return {
    pieces: range ? range.slice(1) : body.split(/\s+then\s+/),
    climbs: range !== null,
    each: count === undefined ? undefined : Number(count),
  };
}

/** The canonical text, read back by `parseSilenceLengths`: equal lengths of silences have equal texts, written as steps or as a list. */
export function silenceLengthsText({ lengths, each }: SilenceLengths): string {
  const texts = lengths.map(spanText);
  if (lengths.length === 1) return texts[0]!;
  const phrases = `each ${each} phrase${each === 1 ? "" : "s"}`;
  const by = equalStep(lengths);
  if (by === undefined) return `${texts.join(" then ")} ${phrases}`;
  return `${texts[0]} to ${texts.at(-1)} by ${spanText(by)} ${phrases}`;
}

/** Lengths that hold for `each` phrases, with as few repetitions as can be: "1/2 bar, 1/2 bar, 1 bar, 1 bar" is half a bar and a bar for two phrases each. Only equal lengths: one. */
export function grouped(lengths: readonly Span[], each: number): SilenceLengths {
  const texts = lengths.map(spanText);
  if (texts.every((text) => text === texts[0])) return { lengths: [lengths[0]!], each: 1 };
  const starts = texts.flatMap((text, i) => (text === texts[i - 1] ? [] : [i]));
  const runs = starts.map((start, k) => (starts[k + 1] ?? texts.length) - start);
  const shared = runs.reduce(greatestDivisor);
  return { lengths: lengths.filter((_, i) => i % shared === 0), each: each * shared };
}

/** The index of the length that holds in a phrase (from 1). */
export function lengthIndexIn({ lengths, each }: SilenceLengths, phrase: number): number {
  return Math.min(lengths.length - 1, Math.floor((phrase - 1) / each));
}

/** The canonical text of the length of each silence of a take, in order; none in a drill without silences. */
export function lengthsInTake({ dropout, phrases }: Drill, settings: Pick<Settings, "dropout">): readonly string[] {
  const lengths = settings.dropout === undefined ? undefined : readSilenceLengths(settings.dropout);
  if (dropout === undefined || lengths === undefined) return [];
  const perPhrase = dropout.place.at === "bars" ? dropout.place.bars.length : 1;
  return Array.from({ length: phrases * perPhrase }, (_, i) => {
    const phrase = 1 + Math.floor(i / perPhrase);
    return spanText(lengths.lengths[lengthIndexIn(lengths, phrase)]!);
  });
}

/** The canonical texts of the different lengths in a value of the parameter `dropout`; none when it cannot be read. */
export function lengthTextsIn(dropout: string): readonly string[] {
  const lengths = readSilenceLengths(dropout)?.lengths ?? [];
  return [...new Set(lengths.map(spanText))];
}

/** The canonical texts in bars, beats and notes. Where the pattern changes its meter: only in the units they have. */
export function spellingsOf(value: SilenceLengths, pattern: Pattern): readonly string[] {
  const meter = onlyMeter(pattern);
  if (meter === undefined) return [silenceLengthsText(value)];
  return UNITS.map((unit) =>
    silenceLengthsText({ ...value, lengths: value.lengths.map((length) => spanIn(unit, length, meter)) }),
  );
}

/** The index of the first length that is shorter than the one before; -1 when there is none. Over a pattern that changes its meter lengths of one unit are compared. */
export function firstThatShrinks({ lengths }: SilenceLengths, pattern: Pattern): number {
  const meter = onlyMeter(pattern);
  const size = (span: Span): Fraction => (meter === undefined ? span.count : resolveSpan(span, meter));
  return lengths.findIndex((span, i) => i > 0 && compare(size(span), size(lengths[i - 1]!)) < 0);
}

/** The lengths from the first to the last span by the third; `undefined` when the steps do not reach the end, or only after 64 phrases. */
function climbedLengths([from, to, by]: readonly [Span, Span, Span], each: number): readonly Span[] | undefined {
  if (from.unit !== to.unit || from.unit !== by.unit) return undefined;
  const steps = divide(subtract(to.count, from.count), by.count);
  if (steps.d !== 1 || steps.n < 0 || (steps.n + 1) * each > MOST_PHRASES) return undefined;
  return Array.from({ length: steps.n + 1 }, (_, k) => ({
    count: add(from.count, multiply(by.count, fraction(k))),
    unit: from.unit,
  }));
}

/** The step between neighbouring lengths when it is the same everywhere and above 0. */
function equalStep(lengths: readonly Span[]): Span | undefined {
  const [first, second] = lengths;
  const count = subtract(second!.count, first!.count);
  const isEqual = lengths.every(
    ({ count: own, unit }, i) =>
      unit === first!.unit && (i === 0 || compare(subtract(own, lengths[i - 1]!.count), count) === 0),
  );
  return isEqual && count.n > 0 ? { count, unit: first!.unit } : undefined;
}

function greatestDivisor(a: number, b: number): number {
  return b === 0 ? a : greatestDivisor(b, a % b);
}
