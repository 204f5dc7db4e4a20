import { add, compare, divide, type Fraction, fraction, multiply, toNumber, ZERO } from "../../base/index.js";
import { pointerTo, type VariantDocument } from "../../schema/index.js";
import { barLength, beatOf, parseTempo, type Tempo } from "../../time/index.js";
import { problem } from "../codes.js";
import { parseBars, spanOf } from "../file/bars.js";
import type { RecordedTake, RecordingFacts } from "../model.js";
import type { Problem } from "../problem.js";
import { say } from "../say.js";
import type { Frame } from "./bars.js";

/** Gives what is known of a sound file beside the curriculum; `undefined` when it is not there or lies outside. */
export type FindRecording = (path: string) => RecordingFacts | undefined;

/** How much a recording may be shorter than its bars, seconds. Our choice: people trim to the last bar line by eye, and the fade at its end is as long. */
const SHORT_OF_END = 0.05;

/** A file as a part or a line of `recordings` names it, with the pointers of what is said of it. */
interface Named {
  readonly path: string;
  readonly pointer: string;
  readonly starts: Written;
  readonly bars: Written;
  readonly lines?: Lines | undefined;
}

/** Seconds of its bar lines, as the document has them. */
interface Lines {
  readonly seconds: readonly number[];
  readonly pointer: string;
}

interface Written {
  readonly text: string | undefined;
  readonly pointer: string;
}

/**
 * The recordings of a part or a variant, slowest first; none where it has none. Pointers are relative to the document.
 *
 * Problems: RECORDED_TEMPO_MISSING, RECORDED_TEMPO_TWICE, RECORDED_START_NOT_READ, RECORDED_TOO_SHORT, RECORDED_BARS_DO_NOT_FIT, BAR_LINES_DO_NOT_FIT, FILE_BARS_NOT_READ, FILE_NOT_FOUND, FILE_KIND_UNKNOWN,
 * FILE_OPTION_MISPLACED, PART_WITH_TWO_MUSICS, and those of a tempo.
 */
export function compileRecordings(
  document: VariantDocument,
  { frame, recordings }: { readonly frame: Frame; readonly recordings: FindRecording },
): { readonly takes: readonly RecordedTake[]; readonly problems: readonly Problem[] } {
  const problems: Problem[] = [];
  const takes: RecordedTake[] = [];
  const own = { starts: written(document.starts, "/starts"), bars: written(document.bars, "/bars") };
  const take = (tempo: Tempo, named: Named): void => {
    const read = readTake(tempo, named, { frame, recordings });
    problems.push(...read.problems);
    if (read.take !== undefined) takes.push(read.take);
  };
  const tempoRead = (text: string | number, pointer: string): Tempo | undefined => {
    const read = parseTempo(text);
    if (read.ok) return read.value;
    problems.push(...read.problems.map((each) => ({ ...each, where: { pointer } })));
    return undefined;
  };
  if (document.recording !== undefined) {
    if (document.tempo === undefined) {
      const message = say("pattern-problem.recorded-tempo-missing");
      const remedy = say("pattern-problem.write-for-instance", { example: "tempo: 96" });
      problems.push(problem("RECORDED_TEMPO_MISSING", message, { pointer: "/recording" }, remedy));
    }
    const tempo = document.tempo === undefined ? undefined : tempoRead(document.tempo, "/tempo");
    const seconds = document["bar-lines"];
    const lines = seconds === undefined ? undefined : { seconds, pointer: "/bar-lines" };
    if (lines !== undefined && document.starts !== undefined) {
      const message = say("pattern-problem.recorded-starts-beside-bar-lines");
      const remedy = say("pattern-problem.leave-it-out");
      problems.push(problem("FILE_OPTION_MISPLACED", message, { pointer: "/starts" }, remedy));
    }
    if (tempo !== undefined) take(tempo, { path: document.recording, pointer: "/recording", ...own, lines });
  }
  if (document.recordings !== undefined) {
    if (document.recording !== undefined) problems.push(bothWays());
    else if (document.tempo !== undefined) problems.push(misplaced("tempo"));
    for (const [key, file] of Object.entries(document.recordings)) {
      const pointer = pointerTo(["recordings", key]);
      const tempo = tempoRead(key, pointer);
      if (tempo !== undefined) take(tempo, namedIn(file, pointer, own));
    }
    problems.push(...sameTempo(takes));
  }
  if (document.recording === undefined && document.recordings === undefined)
    for (const option of ["tempo", "starts"] as const)
      if (document[option] !== undefined) problems.push(misplaced(option));
  if (document.recording === undefined && document["bar-lines"] !== undefined) problems.push(misplaced("bar-lines"));
  return { takes: takes.sort((a, b) => pace(a) - pace(b)), problems };
}

function written(text: string | undefined, pointer: string): Written {
  return { text, pointer };
}

function namedIn(
  file: NonNullable<VariantDocument["recordings"]>[string],
  pointer: string,
  own: Pick<Named, "starts" | "bars">,
): Named {
  if (typeof file === "string") return { path: file, pointer, ...own };
  return {
    path: file.file,
    pointer: `${pointer}/file`,
    starts: file.starts === undefined ? own.starts : written(file.starts, `${pointer}/starts`),
    bars: file.bars === undefined ? own.bars : written(file.bars, `${pointer}/bars`),
  };
}

function readTake(
  tempo: Tempo,
  { path, pointer, starts, bars, lines }: Named,
  { frame, recordings }: { readonly frame: Frame; readonly recordings: FindRecording },
): { readonly take?: RecordedTake; readonly problems: readonly Problem[] } {
  const problems: Problem[] = [];
  const facts = recordings(path);
  const file = path.slice(0, 100);
  if (facts === undefined) {
    const message = say("pattern-problem.file-not-found", { found: JSON.stringify(file) });
    problems.push(problem("FILE_NOT_FOUND", message, { pointer }, say("pattern-problem.file-not-found-remedy")));
  } else if (facts.format === undefined) {
    const message = say("pattern-problem.recorded-kind-unknown", { file });
    problems.push(
      problem("FILE_KIND_UNKNOWN", message, { pointer }, say("pattern-problem.recorded-kind-unknown-remedy")),
    );
  }
  const from = starts.text === undefined ? 0 : secondsIn(starts.text);
  if (from === undefined) {
    const message = say("pattern-problem.recorded-start-not-read", {
      found: JSON.stringify(starts.text?.slice(0, 20)),
    });
    const remedy = say("pattern-problem.write-for-instance", { example: "2.135 s" });
    problems.push(problem("RECORDED_START_NOT_READ", message, { pointer: starts.pointer }, remedy));
  }
  const range = readRange(bars, frame);
  if ("code" in range) problems.push(range);
  if (facts === undefined || from === undefined || "code" in range || problems.length > 0) return { problems };
  const beat = tempo.beat ?? beatOf(frame.bars[0]!.meter);
  const even = { file: path, sha256: facts.sha256, tempo: tempo.perMinute, beat, starts: from, ...range };
  const wrong = lines === undefined ? undefined : linesProblem(even, lines, frame);
  if (wrong !== undefined) return { problems: [wrong] };
  const take = lines === undefined ? even : { ...even, starts: lines.seconds[0]!, lines: lines.seconds };
  const end = barLineOf(take, range.first + range.bars, frame);
  if (facts.seconds !== undefined && facts.seconds < end - SHORT_OF_END) {
    const whole = wholeBars(take, facts.seconds, frame);
    const given = {
      file,
      seconds: hundredths(facts.seconds),
      end: hundredths(end),
      last: range.first + range.bars - 1,
    };
    const message = say("pattern-problem.recorded-too-short", given);
    const remedy = say("pattern-problem.recorded-too-short-remedy", { count: whole });
    return {
      problems: [
        problem("RECORDED_TOO_SHORT", message, { pointer: bars.text === undefined ? pointer : bars.pointer }, remedy),
      ],
    };
  }
  return { take, problems };
}

/** How much longer or shorter than the tempo says a bar between two lines may be; our choice: more is another tempo, or a line that was left out. */
const MOST_OFF = 0.25;

function linesProblem(take: RecordedTake, { seconds, pointer }: Lines, frame: Frame): Problem | undefined {
  const remedy = say("pattern-problem.bar-lines-do-not-fit-remedy");
  const wanted = take.bars + 1;
  if (seconds.length !== wanted) {
    const given = { count: take.bars, lines: wanted, found: seconds.length };
    return problem("BAR_LINES_DO_NOT_FIT", say("pattern-problem.bar-lines-not-as-many", given), { pointer }, remedy);
  }
  const off = pacesOf({ ...take, lines: seconds }, frame).findIndex((pace) => Math.abs(toNumber(pace) - 1) > MOST_OFF);
  if (off < 0) return undefined;
  const should = secondsToBar(take, take.first + off + 1, frame) - secondsToBar(take, take.first + off, frame);
  const given = {
    bar: take.first + off,
    found: (seconds[off + 1]! - seconds[off]!).toFixed(3),
    should: should.toFixed(3),
  };
  const where = { pointer: `${pointer}/${off + 1}` };
  return problem("BAR_LINES_DO_NOT_FIT", say("pattern-problem.bar-lines-off-tempo", given), where, remedy);
}

/** How much faster than its tempo each bar of a recording goes, by its bar lines to the millisecond; 0 where a line does not lie after the one before. */
export function pacesOf(take: RecordedTake, frame: Pick<Frame, "bars">): readonly Fraction[] {
  const { first, bars, tempo, beat, lines = [] } = take;
  return Array.from({ length: bars }, (_, i) => {
    const { meter } = frame.bars[(first - 1 + i) % frame.bars.length]!;
    const lasts = Math.round(1000 * (lines[i + 1]! - lines[i]!));
    if (lasts <= 0) return ZERO;
    return divide(multiply(barLength(meter), fraction(60_000, lasts)), multiply(tempo, beat));
  });
}

/** Reads "2.135 s" and "80 ms" as seconds; a number alone says no unit. */
function secondsIn(text: string): number | undefined {
  const match = /^\s*(\d{1,6}(?:\.\d{1,9})?)\s*(s|ms)\s*$/.exec(text);
  if (!match) return undefined;
  return match[2] === "ms" ? Number(match[1]) / 1000 : Number(match[1]);
}

/** The bars taken: as many as the pattern has when none are named, else a divisor or a multiple of them that has the pattern's meters. */
function readRange({ text, pointer }: Written, frame: Frame): { first: number; bars: number } | Problem {
  const whole = frame.bars.length;
  if (text === undefined) return { first: 1, bars: whole };
  const read = parseBars(text, frame, pointer);
  if ("code" in read) return read;
  const { first, bars } = read;
  const goesRound = whole % bars === 0 && isPeriodic(frame, bars);
  if (goesRound || bars % whole === 0) return { first, bars };
  const message = say("pattern-problem.recorded-bars-do-not-fit", { found: text.trim(), count: bars, bars: whole });
  const remedy = say("pattern-problem.write", { text: spanOf(first, frame) });
  return problem("RECORDED_BARS_DO_NOT_FIT", message, { pointer }, remedy);
}

function isPeriodic({ bars }: Frame, period: number): boolean {
  return bars.every(({ meter }, i) => compare(barLength(meter), barLength(bars[i % period]!.meter)) === 0);
}

type Placed = Pick<RecordedTake, "tempo" | "beat" | "first">;

/** Seconds from bar 1 of a recording to one of its bars, whose meters are those of the pattern, its first bar taken being bar 1 there. */
function secondsToBar(take: Placed, bar: number, { bars, length }: Pick<Frame, "bars" | "length">): number {
  const count = bars.length;
  const rounds = Math.floor((bar - 1) / count);
  let whole: Fraction = multiply(length, fraction(rounds));
  for (let i = rounds * count + 1; i < bar; i++)
    whole = add(whole, barLength(bars[(((i - take.first) % count) + count) % count]!.meter));
  return toNumber(whole) * secondsPerWhole(take);
}

/** Seconds from the beginning of a recording to one of its bar lines. */
export function barLineOf(
  take: Placed & Pick<RecordedTake, "starts" | "lines">,
  bar: number,
  frame: Pick<Frame, "bars" | "length">,
): number {
  return take.lines?.[bar - take.first] ?? take.starts + secondsToBar(take, bar, frame);
}

/** Seconds of a whole note in a recording. */
export function secondsPerWhole({ tempo, beat }: Pick<RecordedTake, "tempo" | "beat">): number {
  return 60 / pace({ tempo, beat });
}

/** Whole notes of a recording in a minute. */
function pace({ tempo, beat }: Pick<RecordedTake, "tempo" | "beat">): number {
  return toNumber(multiply(tempo, beat));
}

/** How many whole bars a recording has, of those from the first one taken. */
function wholeBars(take: Placed & Pick<RecordedTake, "starts">, seconds: number, frame: Frame): number {
  const each = toNumber(divide(frame.length, fraction(frame.bars.length))) * secondsPerWhole(take);
  const left = seconds + SHORT_OF_END - take.starts - secondsToBar(take, take.first, frame);
  return Math.max(0, Math.floor(left / each));
}

function sameTempo(takes: readonly RecordedTake[]): readonly Problem[] {
  const paces = takes.map(pace);
  if (new Set(paces).size === paces.length) return [];
  const message = say("pattern-problem.recorded-tempo-twice");
  const remedy = say("pattern-problem.recorded-tempo-twice-remedy");
  return [problem("RECORDED_TEMPO_TWICE", message, { pointer: "/recordings" }, remedy)];
}

function bothWays(): Problem {
  const message = say("pattern-problem.part-with-two-musics", { others: ["recording"], last: "recordings" });
  const remedy = say("pattern-problem.recorded-both-ways-remedy");
  return problem("PART_WITH_TWO_MUSICS", message, { pointer: "/recordings" }, remedy);
}

function misplaced(option: "tempo" | "starts" | "bar-lines"): Problem {
  const where = { pointer: `/${option}` };
  const message = say("pattern-problem.recorded-option-misplaced", { option });
  return problem(
    "FILE_OPTION_MISPLACED",
    message,
    where,
    say("pattern-problem.recorded-option-misplaced-remedy", { option }),
  );
}

function hundredths(seconds: number): string {
  return seconds.toFixed(2);
}
