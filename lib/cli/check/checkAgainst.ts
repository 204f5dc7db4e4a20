import { existsSync } from "node:fs";
import { type Problem, problemsIn, problemsOf } from "../../base/index.js";
import type { Curriculum } from "../../curriculum/index.js";
import { type CourseCheck, checkCourse, keptCourses } from "../../practice/index.js";
import type { EditionEffect } from "../../progress/index.js";
import type { Store } from "../../store/index.js";
import type { Words } from "../../words/index.js";
import { fileCodes } from "../codes.js";
import { openCourse } from "../input/courseFile.js";
import { misuse, type Outcome, printJson, refuse, type Setting } from "../outcome.js";
import { effectText } from "../output/effectText.js";
import { plain } from "../output/printableText.js";
import { sayProblem } from "../say.js";
import { outcomeOf, type StoreOptions, usualStore, withStore } from "../store/openStore.js";
import { comparisonText } from "./comparisonText.js";
import { printReport, summary } from "./courseReport.js";

const problem = problemsOf(fileCodes);

/** Most students named for whom nothing changes; our choice: a line or two. */
const NAMED = 12;

export interface ComparisonOptions extends StoreOptions {
  /** The file of the old edition; `true`: the stored editions of the students. */
  readonly against: string | true;
}

/** `leeway check NEW --against [OLD]`: the effect of a new edition on rungs, and on the students of a store; nothing is written. */
export function checkAgainst(
  setting: Setting,
  files: readonly string[],
  options: ComparisonOptions,
): Promise<Outcome> | Outcome {
  const [file, ...more] = files;
  if (file === undefined || more.length > 0) {
    const got = { option: "--against", count: String(files.length) };
    return misuse(setting, setting.words.say("cli.misuse.one-edition", got));
  }
  const now = openCourse(file, setting.sources);
  if (!now.ok) return refuse(setting, now.problems);
  const work = { file, now: now.value, advice: problemsIn(now) };
  const at = setting.terminal.now();
  if (options.against !== true) {
    const old = openCourse(options.against, setting.sources);
    if (!old.ok) return refuse(setting, old.problems);
    const against = old.value;
    // Without a store the rungs are compared; students are compared when there is a store.
    if (options.store === undefined && !hasUsualStore())
      return checkCourse(now.value, { against, at }).then((check) => tell(setting, { ...work, check }));
    return withStore(setting, { ...options, create: false }, async (store) => {
      const courseOf = keptCourses(store).find;
      return tell(setting, { ...work, store, check: await checkCourse(now.value, { against, store, at, courseOf }) });
    });
  }
  return withStore(setting, { ...options, create: false }, async (store) => {
    const courses = keptCourses(store);
    const check = await checkCourse(now.value, { store, at, courseOf: courses.find });
    const missing = [...new Set(check.effects.map(({ from }) => from))].flatMap((edition) =>
      courses.problemsOf(now.value.name, edition),
    );
    if (missing.length > 0) return refuse(setting, missing);
    if (check.effects.length > 0) return tell(setting, { ...work, store, check });
    const names = { place: store.place, course: now.value.name, file };
    const message = sayProblem("cli-problem.nothing-to-compare", names);
    const remedy = sayProblem("cli-problem.nothing-to-compare-remedy");
    return refuse(setting, [problem("NOTHING_TO_COMPARE", message, { file }, remedy)]);
  });
}

function hasUsualStore(): boolean {
  const place = usualStore(process.env, process.platform);
  return place.includes("://") || existsSync(place);
}

interface Compared {
  readonly file: string;
  readonly now: Curriculum;
  /** Problems and advice of the new edition itself. */
  readonly advice: readonly Problem[];
  readonly check: CourseCheck;
  readonly store?: Store;
}

function tell(setting: Setting, { file, now, advice, check, store }: Compared): Outcome {
  const { comparisons, effects } = check;
  const problems = [...advice, ...check.problems.map((each) => ({ ...each, where: { file, ...each.where } }))];
  if (setting.json) {
    const students = effects.map(({ standing: _, curriculum: __, ...effect }) => effect);
    const place = store === undefined ? {} : { store: store.place, students };
    printJson(setting, { file, ok: true, ...summary(now), problems, comparisons, ...place });
    return outcomeOf(problems);
  }
  printReport(setting, file, { course: now, problems });
  const { print } = setting.terminal;
  for (const comparison of comparisons) print(`\n${comparisonText(now.name, comparison, setting.words)}`);
  if (store !== undefined) print(`\n${studentsText(effects, setting.words)}`);
  return outcomeOf(problems);
}

function studentsText(effects: readonly EditionEffect[], words: Words): string {
  const affected = effects.filter(({ isAffected }) => isAffected);
  const others = effects.filter(({ isAffected }) => !isAffected).map(({ student }) => student);
  const { say } = words;
  const counts = { students: String(effects.length), affected: String(affected.length) };
  const head = `${say("cli.students-affected", counts)}\n`;
  const told = affected.map((effect) => {
    const where = say("cli.student-in", { student: effect.student, edition: effect.from });
    return `  ${plain(where)}\n${effectText(effect, words)}`;
  });
  if (others.length === 0) return head + told.join("");
  const names = say("cli.list", { names: others.slice(0, NAMED) });
  const more = others.length - NAMED;
  const students = more > 0 ? say("cli.and-more", { names, count: more }) : names;
  return `${head}${told.join("")}  ${plain(say("cli.unaffected", { students }))}\n`;
}
