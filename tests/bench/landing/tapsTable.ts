import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { readCurriculum } from "../../../lib/curriculum/index.js";
import { findRung, scoreOf } from "../../../lib/drill/index.js";
import type { Score } from "../../../lib/schema/index.js";
import { assess } from "../../../lib/take/index.js";
import { must } from "../../time/shorthand.js";
import { SIZE } from "./size.js";
import { printTable } from "./textTable.js";
import { shareText, wilson } from "./wilson.js";

const DATA = join("..", "shared", "reference", "continuation", "trials.jsonl");
const TASK = join("tests", "take", "continuation.yaml");
/** Of the task's course, per cent. */
const LIMIT = 5;
const FEWEST_ALONE = 12;

interface Trial {
  readonly ioi: 400 | 600;
  readonly tones: readonly number[];
  readonly taps: readonly (readonly [at: number, phase: string])[];
}

/**
 * Real taps: eight beats with a click, sixteen without, and no return. Pazdera & Trainor 2025, Sci. Rep. 15, 17012, doi:10.1038/s41598-025-00827-4, data
 * jpazdera/IllusoryMotor at 4e107d16 (CC BY 4.0), read in place. Beside the mean interval of the taps alone, in trials without a skipped or doubled beat.
 */
export function printTapsTable(): void {
  if (!SIZE.rows.test("real taps")) return;
  if (!existsSync(DATA)) {
    console.log("\nskipped: real taps, because ../shared/reference/continuation is not there");
    return;
  }
  const all = readFileSync(DATA, "utf8")
    .trim()
    .split("\n")
    .map((line): Trial => inMilliseconds(JSON.parse(line)));
  const trials = all.filter((_, index) => index % Math.max(1, Math.floor(all.length / (20 * SIZE.silences))) === 0);
  const scores = { 400: scoreAt("tempo=150"), 600: scoreAt("tempo=100") };
  const judged = trials.map((trial) => ({
    verdict: assess(scores[trial.ioi], { zero: "bar-1", onsets: trial.taps.map(([at]) => at / 1000) }).dropouts[0]!
      .verdict,
    plain: plainPercent(trial),
  }));
  const rows = [
    {
      name: "plain estimate over 1.5 x the limit",
      wrong: "within",
      of: judged.filter(({ plain }) => Math.abs(plain ?? 0) > 1.5 * LIMIT),
    },
    {
      name: "plain estimate below 0.67 x",
      wrong: "beyond",
      of: judged.filter(({ plain }) => Math.abs(plain ?? 2 * LIMIT) < 0.67 * LIMIT),
    },
    { name: "all trials", wrong: "", of: judged },
  ].map(({ name, wrong, of }) => [
    name,
    String(of.length),
    wrong === ""
      ? "-"
      : `${wrong} ${shareText(wilson(of.filter(({ verdict }) => verdict === wrong).length, of.length))}`,
    String(of.filter(({ verdict }) => verdict === "unclear").length),
  ]);
  printTable(
    `Real taps, no return: ${trials.length} of ${all.length} trials`,
    ["trials", "n", "wrong", "unclear"],
    rows,
  );
}

function scoreAt(rung: string): Score {
  const course = must(readCurriculum(readFileSync(TASK, "utf8"), { file: TASK, readFile: () => undefined }));
  return scoreOf(must(findRung(course.drills[0]!, rung)));
}

/** The trials of four players are in seconds: eight tones take a few thousand milliseconds. */
function inMilliseconds(trial: Trial): Trial {
  return trial.tones.at(-1)! < 10
    ? { ...trial, taps: trial.taps.map(([at, phase]) => [1000 * at, phase] as const) }
    : trial;
}

/** Mean interval of the taps alone against the beat, per cent; undefined for too few, or when one skips or doubles a beat. */
function plainPercent({ taps, ioi }: Trial): number | undefined {
  const even = taps.every(
    ([at], i) => i === 0 || (at - taps[i - 1]![0] > 0.6 * ioi && at - taps[i - 1]![0] < 1.5 * ioi),
  );
  const alone = taps.flatMap(([at, phase]) => (phase === "C" ? [at] : []));
  if (!even || alone.length < FEWEST_ALONE) return undefined;
  return 100 * ((alone.at(-1)! - alone[0]!) / (alone.length - 1) / ioi - 1);
}
