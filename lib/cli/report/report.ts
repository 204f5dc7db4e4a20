import { Option } from "commander";
import { type Curriculum, dayOf, type JournalEvent, type Report } from "../../index.js";
import { reportChart } from "../../render/chart/index.js";
import { reportPage } from "../../render/report/index.js";
import { eventsBy, type JournalOptions, openReport, type ReportTable, reportCsv } from "../../report/index.js";
import type { JournalEntry, Store } from "../../store/index.js";
import type { Act, AddCommand } from "../command.js";
import { timeFor, wholeNumber } from "../options/optionValues.js";
import { DONE, MISUSE, type Outcome, refuse, type Setting, tellProblems } from "../outcome.js";
import { writeOut } from "../output/outFile.js";
import { plain } from "../output/printableText.js";
import { openCourses } from "../store/keptCourse.js";
import { outcomeOf, type StoreOptions, storeOption, withStore } from "../store/openStore.js";
import { journalsFor } from "./journals.js";
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

/** The report, and for a single student also the journals behind it. */
interface Reported {
  readonly report: Report;
  readonly climbs: readonly { readonly course: Curriculum; readonly events: readonly JournalEvent[] }[];
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
    setting.terminal.tell(`leeway: --since must be a date such as 2026-03-02, got ${plain(since)}\n`);
    return MISUSE;
  }
  const journalOptions: JournalOptions = {
    at,
    ...(options.at === undefined ? {} : { asOf: true }),
    ...(since === undefined ? {} : { since }),
  };
  return withStore(setting, { ...options, create: false }, async (store) => {
    const { entries, problems } = await journalsFor(store, students, options.course);
    if (problems.length > 0 && entries === undefined) return refuse(setting, problems);
    const reported = await gather(setting, store, { entries: entries!, journalOptions, isOne: students.length === 1 });
    const told = answer(setting, reported, options);
    if (problems.length > 0) tellProblems(setting, problems);
    return told === DONE ? outcomeOf(problems) : told;
  });
}

interface Gathering {
  readonly entries: AsyncIterable<JournalEntry>;
  readonly journalOptions: JournalOptions;
  readonly isOne: boolean;
}

/** Reads the journals one after another. Only one is in memory at a time, except those of a single student. */
async function gather(
  setting: Setting,
  store: Store,
  { entries, journalOptions, isOne }: Gathering,
): Promise<Reported> {
  const report = openReport(journalOptions);
  const courses = openCourses(store);
  const climbs: { course: Curriculum; events: readonly JournalEvent[] }[] = [];
  for await (const { student, curriculum } of entries) {
    const events: JournalEvent[] = [];
    for await (const event of store.events({ student, curriculum })) {
      events.push(event);
      // The journal has to be read to know the edition at the time of the report.
      if (event.kind === "enrolled") await courses.read(curriculum, event.edition);
      if (event.kind === "edition changed") await courses.read(curriculum, event.to);
    }
    let course: Curriculum | undefined;
    const courseOf = (edition: string): Curriculum | undefined => {
      course = courses.find(curriculum, edition);
      return course;
    };
    report.add({ student, curriculum, events, courseOf });
    if (isOne && course !== undefined) climbs.push({ course, events: eventsBy(events, journalOptions) });
  }
  // Without a course the report has fewer parts; this is no failure.
  tellProblems(
    setting,
    courses.problems().map((problem) => ({ ...problem, severity: "advice" })),
  );
  return { report: report.close(), climbs };
}

function answer(setting: Setting, { report, climbs }: Reported, options: ReportOptions): Outcome {
  const { as = setting.json ? "json" : "text", table = "students", width, out } = options;
  const pieces = {
    text: () => reportText(report),
    csv: () => reportCsv(report, table),
    json: () => [`${JSON.stringify(report)}\n`],
    svg: () => [`${reportChart(report, { climbs, ...(width === undefined ? {} : { width }) })}\n`],
    html: () => [reportPage(report, { climbs })],
  }[as]();
  if (out === undefined) {
    for (const piece of pieces) setting.terminal.print(piece);
    return DONE;
  }
  const problems = writeOut(out, pieces);
  if (problems.length > 0) return refuse(setting, problems);
  return DONE;
}
