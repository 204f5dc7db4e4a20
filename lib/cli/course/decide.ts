import { failure, type Problem, problemsOf, type Result, success } from "../../base/index.js";
import type { Curriculum } from "../../curriculum/index.js";
import { beginJournal, changeEdition, decide, journalText } from "../../progress/index.js";
import { checkFinding, type Finding, type JournalEvent, type Standing } from "../../schema/index.js";
import { currentFinding } from "../../take/index.js";
import { fileCodes } from "../codes.js";
import type { Act, AddCommand } from "../command.js";
import { openCourse } from "../input/courseFile.js";
import { readArgument } from "../input/inputFile.js";
import { JOURNAL_LIMIT, readJournalFile } from "../input/journalFile.js";
import { linesOf, onLine, parseJson } from "../input/jsonLines.js";
import { type TimeOptions, timeFor } from "../options/optionValues.js";
import { DONE, type Outcome, PROBLEMS, refuse, type Setting, tellProblems } from "../outcome.js";
import { decisionText } from "../output/decisionText.js";
import { plain } from "../output/printableText.js";
import { sayProblem } from "../say.js";

const problem = problemsOf(fileCodes);

export interface DecisionOptions extends TimeOptions {
  readonly journal: string;
  readonly findings?: string;
  /** The student to enrol when the journal is empty. */
  readonly student?: string;
}

/** Adds `decide` to the program. */
export function decideCommand(command: AddCommand, act: Act): void {
  command("decide", "what a student does next: the new events for the journal, as JSON Lines")
    .argument("<FILE>")
    .requiredOption("--journal <FILE>", "the student's journal so far (JSON Lines)")
    .option("--findings <FILE>", "findings to decide on, in order (JSON Lines, - for standard input)")
    .option("--student <NAME>", "whom to enrol when the journal is empty or not there yet")
    .option("--at <TIME>", "the time to decide at (RFC 3339); now when left out")
    .action((file: string, options: DecisionOptions) => act((setting) => decision(setting, file, options)));
}

/**
 * `leeway decide FILE --journal J`: the new events, as lines to append to the journal, on standard output; reasons and problems on standard
 * error. Problems of single events or findings are reported, and the others count.
 */
function decision(setting: Setting, file: string, options: DecisionOptions): Outcome {
  const { terminal } = setting;
  const at = timeFor(setting, options);
  if (typeof at === "number") return at;
  const course = openCourse(file, setting.sources);
  if (!course.ok) return refuse({ ...setting, json: false }, course.problems);
  const begun = begin(setting, course.value, { ...options, at });
  if (!begun.ok) return refuse({ ...setting, json: false }, begun.problems);
  const findings =
    options.findings === undefined ? { list: [], problems: [] } : readFindings(setting, options.findings);
  const problems = [...begun.value.problems, ...findings.problems];
  tellProblems(setting, problems);
  terminal.print(journalText(begun.value.events));
  let { standing } = begun.value;
  let unusable = problems.some((each) => each.severity === "error");
  for (const { finding, line } of findings.list) {
    const decided = decide(course.value, standing, finding, at);
    standing = decided.standing;
    const found = decided.problems.map((each) => onLine(each, options.findings!, line));
    tellProblems(setting, found);
    unusable ||= found.some((each) => each.severity === "error");
    terminal.print(journalText(decided.events));
    if (!setting.json) {
      const { words } = setting;
      const told = { take: finding.take ?? words.say("cli.take"), decision: decisionText(decided, words) };
      terminal.tell(`${plain(words.say("cli.take-decision", told))}\n`);
    }
  }
  return unusable ? PROBLEMS : DONE;
}

interface Beginning {
  readonly standing: Standing;
  /** Events before the first finding: an enrolment, a new edition. */
  readonly events: readonly JournalEvent[];
  readonly problems: readonly Problem[];
}

function begin(
  setting: Setting,
  course: Curriculum,
  { journal, student, at }: DecisionOptions & { readonly at: string },
): Result<Beginning> {
  const read = readJournalFile(setting, journal);
  const isNew = !read.ok && student !== undefined && read.problems.every((each) => each.code === "INPUT_NOT_FOUND");
  if (!read.ok && !isNew) return read;
  const { standing, problems } = read.ok ? read.value : { standing: undefined, problems: [] };
  if (standing === undefined && (student === undefined || problems.length > 0)) {
    const nobody = problem(
      "NOBODY_ENROLLED",
      sayProblem("cli-problem.nobody-enrolled"),
      { file: journal },
      sayProblem("cli-problem.nobody-enrolled-remedy"),
    );
    return failure(...problems, nobody);
  }
  if (standing === undefined) return success({ ...beginJournal(course, student!, at), problems });
  if (standing.curriculum !== course.name) {
    const names = { course: standing.curriculum, given: course.name };
    const message = sayProblem("cli-problem.journal-of-other-course", names);
    return failure(...problems, problem("JOURNAL_OF_OTHER_COURSE", message, { file: journal }));
  }
  return success({ ...changeEdition(course, standing, { at }), problems });
}

interface Findings {
  readonly list: readonly { readonly finding: Finding; readonly line: number }[];
  readonly problems: readonly Problem[];
}

function readFindings({ terminal }: Setting, file: string): Findings {
  const text = readArgument(file, terminal, JOURNAL_LIMIT);
  if (!text.ok) return { list: [], problems: text.problems };
  const list: { finding: Finding; line: number }[] = [];
  const problems: Problem[] = [];
  for (const { line, text: piece } of linesOf(text.value)) {
    const value = parseJson(piece);
    const finding = value.ok ? checkFinding(currentFinding(value.value)) : value;
    if (finding.ok) list.push({ finding: finding.value, line });
    else problems.push(...finding.problems.map((each) => onLine(each, file, line)));
  }
  return { list, problems };
}
