/**
 * What is found of 11,580 trials of real players in a real silence: drift, its clock and motor parts, steadiness, verdicts and reasons, and
 * where it disagrees with the plain estimate. Pazdera & Trainor 2025, Sci. Rep. 15, 17012, doi:10.1038/s41598-025-00827-4, data jpazdera/IllusoryMotor
 * at 4e107d16 (CC BY 4.0), read in place. With LEEWAY_PLOT=file the plot is written there.
 */
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { readCurriculum } from "../../lib/curriculum/index.js";
import { findRung, scoreOf } from "../../lib/drill/index.js";
import type { DropoutFinding, Finding, Score } from "../../lib/schema/index.js";
import { assess } from "../../lib/take/index.js";
import { standardDeviation } from "../../lib/take/metrics/statistics.js";
import { wingKristofferson } from "../reference/wingKristofferson.js";
import { must } from "../time/shorthand.js";
import { plotDrifts } from "./realPlayersPlot.js";

const DATA = join("..", "shared", "reference", "continuation", "trials.jsonl");
const TASK = join("tests", "take", "continuation.yaml");
const TEMPO = { 400: "tempo=150", 600: "tempo=100" } as const;
type Ioi = keyof typeof TEMPO;

interface Trial {
  readonly experiment: string;
  readonly subject: number;
  readonly lessons: number | null;
  readonly trial: number;
  readonly ioi: Ioi;
  readonly tones: readonly number[];
  readonly taps: readonly (readonly [ms: number, phase: "B" | "S" | "C"])[];
}

interface Row {
  readonly trial: Trial;
  readonly finding: Finding;
  readonly dropout: DropoutFinding;
  /** Drift found, per cent of tempo. */
  readonly found: number | undefined;
  /** Mean interval of the taps alone against the beat, per cent; undefined for fewer than two taps. */
  readonly plain: number | undefined;
  /** Taps alone, ms. */
  readonly alone: readonly number[];
}

// As in the test of the same data: no interval skips or doubles a beat.
const SKIPS = 1.5;
const DOUBLES = 0.6;
// Fewest taps alone for the plain estimate to mean anything, as with the data.
const FEWEST_ALONE = 12;

const BANDS: readonly (readonly [name: string, holds: (lessons: number | null) => boolean])[] = [
  ["0-1 years", (lessons) => lessons !== null && lessons < 2],
  ["2-4 years", (lessons) => lessons !== null && lessons >= 2 && lessons < 5],
  ["5-9 years", (lessons) => lessons !== null && lessons >= 5 && lessons < 10],
  ["10 years or more", (lessons) => lessons !== null && lessons >= 10],
  ["not told", (lessons) => lessons === null],
];

function quantile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  const place = share * (sorted.length - 1);
  const below = Math.floor(place);
  return sorted[below]! + (place - below) * ((sorted[below + 1] ?? sorted[below]!) - sorted[below]!);
}

function rowOf(trial: Trial, scores: Readonly<Record<Ioi, Score>>): Row {
  const finding = assess(scores[trial.ioi], { onsets: trial.taps.map(([at]) => at / 1000), zero: "bar-1" });
  const dropout = finding.dropouts[0]!;
  const alone = trial.taps.flatMap(([at, phase]) => (phase === "C" ? [at] : []));
  const plain = alone.length < 2 ? undefined : 100 * ((alone.at(-1)! - alone[0]!) / (alone.length - 1) / trial.ioi - 1);
  return { trial, finding, dropout, found: asNumber(dropout.driftPercent), plain, alone };
}

const asNumber = (value: unknown): number | undefined => (typeof value === "number" ? value : undefined);
const known = (values: readonly (number | undefined)[]): number[] => values.filter((v): v is number => v !== undefined);
const share = (part: number, whole: number): string => (whole === 0 ? "-" : `${((100 * part) / whole).toFixed(1)} %`);
const line = (cells: readonly (string | number)[]): void => console.log(`| ${cells.join(" | ")} |`);
function table(head: readonly string[]): void {
  line(head);
  console.log(`|${"---|".repeat(head.length)}`);
}
const quartiles = (values: readonly number[], digits = 2): string =>
  values.length === 0 ? "-" : [0.25, 0.5, 0.75].map((q) => quantile(values, q).toFixed(digits)).join(" / ");

const isEven = ({ taps, ioi }: Trial): boolean =>
  taps.every(([at], i) => i === 0 || (at - taps[i - 1]![0] > DOUBLES * ioi && at - taps[i - 1]![0] < SKIPS * ioi));
const isClear = ({ dropout }: Row): boolean => dropout.verdict !== "unclear";

/** Eight tones take seven beats: a few seconds, or a few thousand milliseconds. The trials of four players are in seconds. */
const isInSeconds = ({ tones }: Trial): boolean => tones.at(-1)! < 10;
const inMilliseconds = (trial: Trial): Trial =>
  isInSeconds(trial) ? { ...trial, taps: trial.taps.map(([at, phase]) => [1000 * at, phase] as const) } : trial;

/** Standard deviation of the taps nearest to the tones from the fourth on, ms, straight from the data; undefined when one of the five is not there. */
function settledDeviation({ trial: { taps, ioi } }: Row): number | undefined {
  const late = [3, 4, 5, 6, 7].map((tone) =>
    Math.min(...taps.map(([at]) => at - tone * ioi).filter((at) => Math.abs(at) < ioi / 2), Number.POSITIVE_INFINITY),
  );
  if (late.some((at) => !Number.isFinite(at))) return undefined;
  return standardDeviation(late);
}

/** Every group of trials the tables are broken down by. */
function groups(rows: readonly Row[]): [name: string, rows: Row[]][] {
  return ([400, 600] as const).flatMap((ioi) => {
    const these = rows.filter(({ trial }) => trial.ioi === ioi);
    const bands = BANDS.map(([name, holds]): [string, Row[]] => [
      `${ioi} ms, ${name}`,
      these.filter(({ trial }) => holds(trial.lessons)),
    ]);
    return [[`${ioi} ms, all`, these] as [string, Row[]], ...bands];
  });
}

function drifts(rows: readonly Row[]): void {
  console.log("\nDrift in the silence, per cent of tempo (quartile / median / quartile; positive: slower)\n");
  table([
    "trials",
    "number",
    "drift found",
    "plain estimate, same trials",
    "drift, verdict clear",
    "even trials: drift found",
    "even trials: plain",
  ]);
  for (const [name, these] of groups(rows)) {
    const both = these.filter(({ found, plain }) => found !== undefined && plain !== undefined);
    const even = both.filter(({ trial, alone }) => isEven(trial) && alone.length >= FEWEST_ALONE);
    line([
      name,
      these.length,
      quartiles(known(both.map(({ found }) => found))),
      quartiles(known(both.map(({ plain }) => plain))),
      quartiles(known(both.filter(isClear).map(({ found }) => found))),
      quartiles(known(even.map(({ found }) => found))),
      quartiles(known(even.map(({ plain }) => plain))),
    ]);
  }
}

function verdicts(rows: readonly Row[]): void {
  console.log("\nVerdicts at a tolerance of 5 % of tempo\n");
  table(["trials", "within", "beyond", "unclear", "of these with a reason"]);
  for (const [name, these] of groups(rows)) {
    const of = (verdict: string): Row[] => these.filter(({ finding }) => finding.verdict === verdict);
    const unclear = of("unclear");
    const reasoned = unclear.filter(({ finding }) => finding.reasons.length > 0);
    line([
      name,
      share(of("within").length, these.length),
      share(of("beyond").length, these.length),
      share(unclear.length, these.length),
      share(reasoned.length, unclear.length),
    ]);
  }
  console.log("\nReasons given (a trial may have several)\n");
  table(["reason", "trials"]);
  const counts = new Map<string, number>();
  for (const { finding } of rows) {
    for (const code of new Set(finding.reasons.map((reason) => reason.code)))
      counts.set(code, (counts.get(code) ?? 0) + 1);
  }
  for (const [code, count] of [...counts].sort((a, b) => b[1] - a[1])) line([code, count]);
}

function splits(rows: readonly Row[]): void {
  console.log(
    `\nClock and motor by Wing & Kristofferson's moments, even trials of ${FEWEST_ALONE} taps alone or more; ms (quartile / median / quartile)\n`,
  );
  table(["trials", "number", "legal, mean taken out", "clock", "motor", "legal, line taken out", "clock", "motor"]);
  for (const [name, these] of groups(rows)) {
    const even = these.filter(({ trial, alone }) => isEven(trial) && alone.length >= FEWEST_ALONE);
    const cells = (["mean", "line"] as const).flatMap((around) => {
      const legal = even.flatMap(({ alone }) => {
        const split = wingKristofferson(
          alone.slice(1).map((at, i) => at - alone[i]!),
          { around },
        );
        return "unmeasured" in split ? [] : [split];
      });
      return [
        share(legal.length, even.length),
        quartiles(
          legal.map(({ clockMs }) => clockMs),
          1,
        ),
        quartiles(
          legal.map(({ motorMs }) => motorMs),
          1,
        ),
      ];
    });
    line([name, even.length, ...cells]);
  }
}

function steadiness(rows: readonly Row[]): void {
  console.log("\nSteadiness while paced (quartile / median / quartile) and the constant offset\n");
  table([
    "trials",
    "measured",
    "SD, ms",
    "SD, per cent of the beat",
    "SD from the fourth tone on, per cent",
    "offset, ms",
  ]);
  for (const [name, these] of groups(rows)) {
    const deviations = these.flatMap(({ finding, trial }) => {
      const sd = asNumber(finding.steadiness.accompaniedMs);
      return sd === undefined ? [] : [{ sd, percent: (100 * sd) / trial.ioi }];
    });
    line([
      name,
      deviations.length,
      quartiles(
        deviations.map(({ sd }) => sd),
        1,
      ),
      quartiles(deviations.map(({ percent }) => percent)),
      quartiles(known(these.map((row) => settledDeviation(row))).map((sd) => (100 * sd) / these[0]!.trial.ioi)),
      quartiles(
        known(
          these.filter(({ finding }) => finding.reasons.length === 0).map(({ finding }) => asNumber(finding.offsetMs)),
        ),
        1,
      ),
    ]);
  }
}

const name = ({ trial: { experiment, subject, trial } }: Row): string => `${experiment}/${subject}/${trial}`;
/** Intervals between taps in beats, those of the silence after a bar; the first is when the first tap fell. */
function inBeats({ trial: { taps, ioi } }: Row): string {
  const cells = taps.map(([at], i) => ((at - (taps[i - 1]?.[0] ?? 0)) / ioi).toFixed(2).replace(/^0\./, "."));
  const first = taps.findIndex(([, phase]) => phase === "C");
  return `${cells.slice(0, first).join(" ")} \\| ${cells.slice(first).join(" ")}`;
}

// A gap of more than so many beats is a pause of the player or the recording, not lost taps.
const LONG_PAUSE = 3;
const longestGap = ({ alone, trial: { ioi } }: Row): number =>
  Math.max(...alone.slice(1).map((at, i) => (at - alone[i]!) / ioi));

function disagreements(rows: readonly Row[], title: string): void {
  console.log(`\n${title}\n`);
  table(["trial", "beat", "plain", "found", "verdict", "reasons", "intervals in beats (paced \\| alone)"]);
  const far = rows
    .filter(({ found, plain }) => found !== undefined && plain !== undefined)
    .sort((a, b) => Math.abs(b.found! - b.plain!) - Math.abs(a.found! - a.plain!));
  for (const row of far.slice(0, 20)) {
    const { dropout, finding, found, plain, trial } = row;
    const error = (100 * (dropout.standardErrorMs as number)) / (16 * trial.ioi);
    line([
      name(row),
      trial.ioi,
      `${plain!.toFixed(1)} %`,
      `${found!.toFixed(1)} ± ${error.toFixed(1)} %`,
      dropout.verdict,
      [...new Set(finding.reasons.map(({ code }) => code))].join(", ") || "-",
      inBeats(row),
    ]);
  }
}

/** The taps alone with bounces dropped, every gap counted as the whole number of the player's own intervals nearest to it, up to a long pause. */
function tidied({ alone, trial: { ioi } }: Row): number | undefined {
  const kept = alone.filter((at, i) => i === 0 || at - alone[i - 1]! > 0.36 * ioi);
  const gaps = kept.slice(1).map((at, i) => at - kept[i]!);
  if (gaps.length < 8) return undefined;
  const own = quantile(gaps, 0.5);
  let [beats, sum] = [0, 0];
  for (const gap of gaps) {
    if (gap > 5 * ioi) break;
    beats += Math.max(1, Math.round(gap / own));
    sum += gap;
  }
  return beats === 0 ? undefined : 100 * (sum / beats / ioi - 1);
}

function clearAndWild(rows: readonly Row[]): void {
  const clear = rows.filter((row) => isClear(row) && row.found !== undefined);
  console.log("\nClear verdicts by size of the drift found, per cent\n");
  const edges = [0, 5, 10, 15, 20, 25, 29.3, 41.4, 1000];
  table(["size", "faster", "slower"]);
  edges.slice(1).forEach((high, k) => {
    const low = edges[k]!;
    const inside = (sign: number): number =>
      clear.filter(({ found }) => sign * found! > low && sign * found! <= high).length;
    line([high === 1000 ? `above ${low}` : `${low} to ${high}`, inside(-1), inside(1)]);
  });
  const checked = clear.flatMap((row) => {
    const tidy = tidied(row);
    return tidy === undefined ? [] : [{ row, tidy }];
  });
  const away = (limit: number): number => checked.filter(({ row, tidy }) => Math.abs(row.found! - tidy) > limit).length;
  console.log(
    `\nAgainst the taps tidied by a simple rule (bounces dropped, gaps counted): of ${checked.length} clear verdicts ${[3, 5, 8].map((limit) => `${away(limit)} are more than ${limit} %`).join(", ")} away.`,
  );
  const wrong = checked.filter(({ row, tidy }) =>
    row.dropout.verdict === "within" ? Math.abs(tidy) > 7.5 : Math.abs(tidy) < 3.35,
  );
  console.log(
    `Clear verdicts that the tidied taps contradict (within above 7.5 %, beyond below 3.35 %): ${wrong.length}\n`,
  );
  table(["trial", "beat", "tidied", "found", "verdict", "intervals in beats (paced \\| alone)"]);
  for (const { row, tidy } of wrong) {
    line([
      name(row),
      row.trial.ioi,
      `${tidy.toFixed(1)} %`,
      `${row.found!.toFixed(1)} %`,
      row.dropout.verdict,
      inBeats(row),
    ]);
  }
}

if (!existsSync(DATA)) console.log("skipped: ../shared/reference/continuation is not there");
else {
  const course = must(
    readCurriculum(readFileSync(TASK, "utf8"), { file: "continuation.yaml", readFile: () => undefined }),
  );
  const score = (ioi: Ioi): Score => scoreOf(must(findRung(course.drills[0]!, TEMPO[ioi])));
  const scores = { 400: score(400), 600: score(600) };
  const raw: Trial[] = readFileSync(DATA, "utf8")
    .trim()
    .split("\n")
    .map((text) => JSON.parse(text));
  const trials = raw.map(inMilliseconds);
  console.log(`${raw.filter(isInSeconds).length} trials are in seconds, not milliseconds, and were converted`);
  const rows = trials.map((trial) => rowOf(trial, scores));
  console.log(
    `${rows.length} trials of ${new Set(trials.map(({ experiment, subject }) => `${experiment}/${subject}`)).size} players; no random numbers, no seed`,
  );
  drifts(rows);
  verdicts(rows);
  splits(rows);
  steadiness(rows);
  disagreements(rows, "The twenty largest disagreements with the plain estimate");
  disagreements(rows.filter(isClear), "The twenty largest with a clear verdict");
  disagreements(
    rows.filter((row) => isClear(row) && longestGap(row) <= LONG_PAUSE),
    `The twenty largest with a clear verdict and no gap above ${LONG_PAUSE} beats`,
  );
  clearAndWild(rows);
  const plot = process.env.LEEWAY_PLOT;
  const measured = rows.flatMap(({ trial: { ioi }, found, plain, dropout }) =>
    found === undefined || plain === undefined ? [] : [{ ioi, found, plain, verdict: dropout.verdict }],
  );
  if (plot !== undefined) writeFileSync(plot, plotDrifts(measured));
}
