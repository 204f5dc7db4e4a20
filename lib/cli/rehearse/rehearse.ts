import { Option } from "commander";
import type { Problem } from "../../base/index.js";
import { type RehearsalTable, rehearsalCsv } from "../../rehearsal/index.js";
import type { RehearsalReport } from "../../schema/index.js";
import { dayOf } from "../../time/index.js";
import type { Act, AddCommand } from "../command.js";
import { ValueMisuse } from "../options/misuse.js";
import { wholeNumber } from "../options/optionValues.js";
import { DONE, misuse, type Outcome, refuse, type Setting } from "../outcome.js";
import { writeOut } from "../output/outFile.js";
import { mergedParts, partDocument } from "./parts.js";
import { rehearsed } from "./rehearsed.js";
import { rehearsalText } from "./text.js";

const FORMATS = ["text", "json", "csv", "svg"] as const;
const TABLES: readonly RehearsalTable[] = ["students", "rungs"];
const NEXT = ["current", "turns", "random", "nothing", "oracle", "easiest"] as const;
const COMPARED = ["policies", "gates"] as const;

export interface RehearseOptions {
  readonly drill?: readonly string[];
  readonly students: number;
  readonly weeks?: number;
  /** Minutes of a session. */
  readonly minutes?: number;
  /** ISO 8601 dates. */
  readonly from?: string;
  readonly by?: string;
  /** File of a population. */
  readonly population?: string;
  readonly seed: string;
  readonly next: (typeof NEXT)[number];
  /** File of an old edition. */
  readonly against?: string;
  readonly suggest?: true;
  readonly compare?: (typeof COMPARED)[number];
  readonly played?: true;
  readonly as?: (typeof FORMATS)[number];
  readonly table: RehearsalTable;
  readonly width?: number;
  readonly out?: string;
  readonly shard?: readonly [number, number];
  readonly merge?: readonly string[];
  readonly workers?: number;
  readonly keep?: string;
}

/** Adds `rehearse` to the program. */
export function rehearseCommand(command: AddCommand, act: Act): void {
  command("rehearse", "a course tried on simulated students: who finishes, when, and where they stall")
    .argument("[FILE]", "the course; none with --merge")
    .option("--drill <NAME...>", "only these drills; those they need count as complete")
    .option("--students <N>", "how many students", wholeNumber(1, 10_000_000), 1000)
    .option("--weeks <W>", "how long they practise; 12 when neither this nor --by is given", wholeNumber(1, 520))
    .option("--minutes <M>", "minutes of a session; each student's own habit when left out", wholeNumber(1, 240))
    .option("--by <DATE>", "the day by which the course is to be finished, such as 2026-06-26")
    .option("--from <DATE>", "with --by: the first day; today when left out")
    .option("--population <FILE>", "who they are (YAML); the built-in population when left out")
    .option("--seed <TEXT>", "another seed, other students", "1")
    .addOption(new Option("--next <HOW>", "what they play next").choices(NEXT).default("current"))
    .option("--against <OLD>", "beside the old edition in this file: the same students, the same luck")
    .option("--suggest", "what wider limits and rungs between would do where students stall")
    .addOption(new Option("--compare <WHAT>", "other ways to go, with intervals").choices(COMPARED))
    .option("--played", "play and judge every take, in place of drawing verdicts: thousands of times slower")
    .addOption(new Option("--as <FORMAT>", "how to answer").choices(FORMATS))
    .addOption(new Option("--table <T>", "with --as csv: which table").choices(TABLES).default("rungs"))
    .option("--width <PX>", "with --as svg: 280 to 2000, 360 for phones", wholeNumber(280, 2000))
    .option("--out <FILE>", "the file to write; standard output when left out")
    .option("--workers <N>", "threads; one for each core when left out", wholeNumber(1, 512))
    .option("--shard <I/N>", "only this part of the students, as a file for --merge: 3/16", shardIn)
    .option("--merge <FILE...>", "the report of all parts, as of one run")
    .option("--keep <DIR>", "where what was played is kept; the user's own cache when left out")
    .action((file: string | undefined, options: RehearseOptions) => act((setting) => rehearse(setting, file, options)));
}

/** `leeway rehearse FILE`: what becomes of simulated students in a course. */
async function rehearse(setting: Setting, file: string | undefined, options: RehearseOptions): Promise<Outcome> {
  const wrong = misusedIn(setting, file, options);
  if (wrong !== undefined) return misuse(setting, wrong);
  if (options.merge !== undefined) {
    const merged = mergedParts(options.merge);
    return merged.ok ? answer(setting, merged.value, options) : refuse(setting, merged.problems);
  }
  const made = await rehearsed(setting, file!, options);
  if (!made.ok) return refuse(setting, made.problems);
  const { report, part, frame, terms } = made.value;
  if (options.shard === undefined) return answer(setting, report, options);
  return written(
    setting,
    [partDocument({ part, frame, terms, shard: options.shard, students: options.students })],
    options,
  );
}

function misusedIn(
  { words: { say } }: Setting,
  file: string | undefined,
  options: RehearseOptions,
): string | undefined {
  const { merge, shard, against, suggest, compare, by, from, weeks } = options;
  if ((file === undefined) === (merge === undefined)) return say("cli.misuse.course-or-parts");
  const together = (first: string, second: string): string => say("cli.misuse.not-together", { first, second });
  if (by !== undefined && weeks !== undefined) return together("--by", "--weeks");
  for (const [option, found] of [
    ["--by", by],
    ["--from", from],
  ] as const)
    if (found !== undefined && dayOf(found) === undefined)
      return say("cli.misuse.date", { option, example: "2026-06-26", found });
  const more =
    against !== undefined
      ? "--against"
      : suggest
        ? "--suggest"
        : compare !== undefined
          ? "--compare"
          : by !== undefined
            ? "--by"
            : undefined;
  if (more !== undefined && shard !== undefined) return together("--shard", more);
  if (more !== undefined && merge !== undefined) return together("--merge", more);
  return undefined;
}

async function answer(setting: Setting, report: RehearsalReport, options: RehearseOptions): Promise<Outcome> {
  const { as = setting.json ? "json" : "text", table, width } = options;
  const { words } = setting;
  if (as === "svg") {
    // The charts are loaded when they are asked for.
    const { rehearsalChart } = await import("../../render/chart/index.js");
    const drawn = rehearsalChart(report, { words, ...(width === undefined ? {} : { width }) });
    return written(setting, [`${drawn}\n`], options);
  }
  const pieces = {
    text: () => rehearsalText(report, words),
    json: () => [`${JSON.stringify(report)}\n`],
    csv: () => rehearsalCsv(report, table),
  }[as]();
  return written(setting, pieces, options);
}

function written(setting: Setting, pieces: Iterable<string>, { out }: RehearseOptions): Outcome {
  if (out === undefined) {
    for (const piece of pieces) setting.terminal.print(piece);
    return DONE;
  }
  const problems: readonly Problem[] = writeOut(out, pieces);
  return problems.length > 0 ? refuse(setting, problems) : DONE;
}

function shardIn(text: string): readonly [number, number] {
  const [, number, count] = /^(\d{1,5})\/(\d{1,5})$/.exec(text) ?? [];
  const shard = [Number(number), Number(count)] as const;
  if (!(shard[0] >= 1 && shard[0] <= shard[1]))
    throw new ValueMisuse((say, option) => say("cli.misuse.shard", { option, example: "3/16", found: text }));
  return shard;
}
