import { Option } from "commander";
import type { Curriculum } from "../../curriculum/index.js";
import { type CourseFinder, keptCourses, type Reported, reportOf } from "../../practice/index.js";
import { reportChart } from "../../render/chart/index.js";
import { reportPage } from "../../render/report/index.js";
import { type JournalOptions, type ReportTable, reportCsv } from "../../report/index.js";
import { dayOf } from "../../time/index.js";
import type { Act, AddCommand } from "../command.js";
import { timeFor, wholeNumber } from "../options/optionValues.js";
import { DONE, misuse, type Outcome, refuse, type Setting, tellProblems } from "../outcome.js";
import { writeOut } from "../output/outFile.js";
import { outcomeOf, type StoreOptions, storeOption, withStore } from "../store/openStore.js";
import { reportText } from "./text.js";

const FORMATS = ["text", "csv", "json", "svg", "html"] as const;
const TABLES: readonly ReportTable[] = ["students", "drift"];

export interface ReportOptions extends StoreOptions {
  /** Name of a course. */
  readonly course?: string;
  readonly as?: (typeof FORMATS)[number];
  readonly table?: ReportTable;
  readonly width?: number;
  readonly out?: string;
  /** ISO 8601 date. */
  readonly since?: string;
  /** RFC 3339. */
  readonly at?: string;
}

/** Adds `report` to the program. */
export function reportCommand(command: AddCommand, act: Act): void {
  storeOption(command("report", "who is where, who is stuck and on what, and drift in silences over weeks"))
    .argument("[STUDENT...]", "everybody when left out")
    .option("--course <NAME>", "only in this course")
    .addOption(new Option("--as <FORMAT>", "how to answer").choices(FORMATS))
    .addOption(new Option("--table <T>", "with --as csv: which table").choices(TABLES))
    .option("--width <PX>", "with --as svg: 280 to 2000, 360 for phones", wholeNumber(280, 2000))
    .option("--out <FILE>", "the file to write; standard output when left out")
    .option("--since <DATE>", "count takes from this day on, such as 2026-03-02")
    .option("--at <TIME>", "as it was at this time (RFC 3339); now when left out")
    .action((students: readonly string[], options: ReportOptions) => {
      act((setting) => reportOut(setting, students, options));
    });
}

/** `leeway report [STUDENT...]`: where students are, who is stuck on what, and how they drift; all students when none is named. */
function reportOut(setting: Setting, students: readonly string[], options: ReportOptions): Promise<Outcome> | Outcome {
  const at = timeFor(setting, options);
  if (typeof at === "number") return at;
  const { since } = options;
  if (since !== undefined && dayOf(since) === undefined) {
    const asked = { option: "--since", example: "2026-03-02", found: since };
    return misuse(setting, setting.words.say("cli.misuse.date", asked));
  }
  const journalOptions: JournalOptions = {
    at,
    ...(options.at === undefined ? {} : { asOf: true }),
    ...(since === undefined ? {} : { since }),
  };
  return withStore(setting, { ...options, create: false }, async (store) => {
    const courses = keptCourses(store);
    const languages = new Map<string | undefined, Curriculum>();
    const courseOf: CourseFinder = async (curriculum, edition) => {
      const found = await courses.find(curriculum, edition);
      if (found !== undefined) languages.set(found.imprint?.language, found);
      return found;
    };
    const { course } = options;
    const reported = await reportOf(store, {
      ...journalOptions,
      students,
      courseOf,
      ...(course === undefined ? {} : { curriculum: course }),
    });
    if (!reported.ok) return refuse(setting, reported.problems);
    const { problems, missing } = reported.value;
    // Without a course the report has fewer parts; this is no failure.
    const absent = missing.flatMap(({ curriculum, edition }) => courses.problemsOf(curriculum, edition));
    tellProblems(
      setting,
      absent.map((problem) => ({ ...problem, severity: "advice" })),
    );
    // A report on courses in several languages is in none of them.
    const [only, ...others] = languages.values();
    const spoken = only === undefined || others.length > 0 ? setting : await setting.inLanguageOf(only);
    const until = await store.followedUntil?.();
    if (until !== undefined) setting.terminal.tell(`${setting.words.say("cli.report-of-replica", { time: until })}\n`);
    const told = answer(spoken, reported.value, options);
    if (problems.length > 0) tellProblems(setting, problems);
    return told === DONE ? outcomeOf(problems) : told;
  });
}

function answer(setting: Setting, { report, climbs }: Reported, options: ReportOptions): Outcome {
  const { as = setting.json ? "json" : "text", table = "students", width, out } = options;
  const pieces = {
    text: () => reportText(report, setting.words),
    csv: () => reportCsv(report, table, setting.words),
    json: () => [`${JSON.stringify(report)}\n`],
    svg: () => [
      `${reportChart(report, { climbs, words: setting.words, ...(width === undefined ? {} : { width }) })}\n`,
    ],
    html: () => [reportPage(report, { climbs, words: setting.words })],
  }[as]();
  if (out === undefined) {
    for (const piece of pieces) setting.terminal.print(piece);
    return DONE;
  }
  const problems = writeOut(out, pieces);
  if (problems.length > 0) return refuse(setting, problems);
  return DONE;
}
