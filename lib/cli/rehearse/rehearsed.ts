import { type Result, success } from "../../base/index.js";
import { type Curriculum, findDrill, readDocument } from "../../curriculum/index.js";
import { rehearseCourses } from "../../node/index.js";
import {
  comparisonOf,
  frameOf,
  type OtherWay,
  otherGates,
  otherPolicies,
  type RehearsalOptions,
  type RehearsedPart,
  type ReportFrame,
  type ReportTerms,
  rehearsalReport,
  reportTerms,
  resultsOf,
  type Students,
  stuckIn,
  studentsOf,
  suggestionsFor,
} from "../../rehearsal/index.js";
import { checkPopulation, type RehearsalComparison, type RehearsalReport } from "../../schema/index.js";
import { dayOf } from "../../time/index.js";
import { openCourse } from "../input/courseFile.js";
import { readText } from "../input/inputFile.js";
import type { Setting } from "../outcome.js";
import { cacheFolder } from "./cacheFolder.js";
import type { RehearseOptions } from "./options.js";
import { progressBar } from "./progressBar.js";

/** A rehearsal with what its parts are made of. */
export interface Rehearsed {
  readonly report: RehearsalReport;
  readonly part: RehearsedPart;
  readonly frame: ReportFrame;
  readonly terms: ReportTerms;
}

/** Most bytes of a population: our choice, many times what one needs. */
const POPULATION_LIMIT = 1_000_000;
/** Share of the students who are to finish by a date for the minutes to suffice, and the sessions that are tried, minutes: our choice. */
const SUFFICES = 0.9;
const SESSIONS = [5, 10, 15, 20, 25, 30, 35, 40, 45, 50, 55, 60];
/** Students on whom sessions and suggestions are tried at most: our choice, a share to about 2 %. */
const MOST_TRIED = 2000;

/** Rehearses the course of a file as the options say: alone, beside its old edition, or beside other ways to go. */
export async function rehearsed(setting: Setting, file: string, options: RehearseOptions): Promise<Result<Rehearsed>> {
  const { terminal, sources } = setting;
  const course = openCourse(file, sources);
  if (!course.ok) return course;
  const old = options.against === undefined ? success(undefined) : openCourse(options.against, sources);
  if (!old.ok) return old;
  for (const name of options.drill ?? []) {
    const found = findDrill(course.value, name, { file });
    if (!found.ok) return found;
  }
  const students = populationIn(options.population);
  if (!students.ok) return students;
  const terms = termsIn(options, students.value, terminal.now());
  const ways = [
    ...(old.value === undefined ? [] : [edition(old.value, terms)]),
    ...(options.compare === "policies" ? otherPolicies(course.value, terms) : []),
    ...(options.compare === "gates" ? otherGates(course.value, terms) : []),
  ];
  const bar = progressBar(terminal);
  const run = {
    workers: options.workers,
    keep: options.keep ?? cacheFolder(),
    played: options.played ?? false,
    onProgress: bar.show,
  };
  const range = rangeIn(options);
  const rehearse = (others: readonly OtherWay[], of: { readonly from: number; readonly count: number }) =>
    rehearseCourses([{ course: course.value, options: terms }, ...others], { ...run, ...of });
  const main = await rehearse(ways, range);
  if (!main.ok) return main;
  const { rehearsals, part } = main.value;
  const [own, ...others] = rehearsals;
  const frame = frameOf(own!.course);
  const said = reportTerms(own!, options.played ? "played" : "drawn");
  let report = rehearsalReport(part, frame, said);
  report = { ...report, comparisons: ways.map(({ way }, i) => comparisonOf(way, part.paired[i]!)) };
  if (old.value !== undefined) report = { ...report, against: resultsOf(part.courses[1]!, frameOf(others[0]!.course)) };
  const tried = { from: 0, count: Math.min(options.students, MOST_TRIED) };
  if (options.suggest) {
    const suggestions = suggestionsFor(course.value, report.results, terms);
    const done = await rehearse(suggestions, tried);
    if (!done.ok) return done;
    const before = resultsOf(done.value.part.courses[0]!, frame);
    const effects = suggestions.map(({ way, drill, isMeant }, i): RehearsalComparison => {
      const after = resultsOf(done.value.part.courses[i + 1]!, frameOf(done.value.rehearsals[i + 1]!.course));
      return comparisonOf(way, done.value.part.paired[i]!, {
        before: stuckIn(before, drill, isMeant),
        after: stuckIn(after, drill, isMeant),
      });
    });
    report = { ...report, comparisons: [...report.comparisons, ...effects] };
  }
  if (options.by !== undefined) {
    const sessions = options.minutes === undefined ? [] : SESSIONS;
    const longer = sessions.map(
      (minutes): OtherWay => ({
        way: { what: "policy", after: "" },
        course: course.value,
        options: { ...terms, minutes },
      }),
    );
    const done = await rehearse(longer, tried);
    if (!done.ok) return done;
    const share = (of: RehearsedPart["courses"][number]): number => {
      const [all] = resultsOf(of, frame).kinds;
      return all!.finished / Math.max(1, all!.students);
    };
    const enough = sessions.find((_, i) => share(done.value.part.courses[i + 1]!) >= SUFFICES);
    const time = { from: firstDay(options, terminal.now()), by: options.by, share: share(part.courses[0]!) };
    report = { ...report, time: { ...time, ...(enough === undefined ? {} : { enough }) } };
  }
  bar.clear();
  return success({ report, part, frame, terms: said });
}

function edition(course: Curriculum, options: RehearsalOptions): OtherWay {
  return { way: { what: "edition", after: course.edition }, course, options };
}

function populationIn(file: string | undefined): Result<Students | undefined> {
  if (file === undefined) return success(undefined);
  const text = readText(file, POPULATION_LIMIT);
  if (!text.ok) return text;
  const read = readDocument(text.value, { file, check: checkPopulation });
  return read.ok ? success(studentsOf(read.value), read.advice) : read;
}

function termsIn(options: RehearseOptions, students: Students | undefined, now: string): RehearsalOptions {
  const { drill, minutes, seed, next, by, weeks = 12 } = options;
  const days = by === undefined ? 7 * weeks : Math.max(1, dayOf(by)! - dayOf(firstDay(options, now))!);
  return {
    seed,
    policy: next,
    weeks: days / 7,
    ...(drill === undefined ? {} : { drills: drill }),
    ...(minutes === undefined ? {} : { minutes }),
    ...(students === undefined ? {} : { students }),
  };
}

function firstDay({ from }: RehearseOptions, now: string): string {
  return from ?? now.slice(0, 10);
}

/** The students of a shard: neighbours, as many as in any other shard or one fewer. */
function rangeIn({ students, shard: [number, count] = [1, 1] }: RehearseOptions): {
  readonly from: number;
  readonly count: number;
} {
  const from = Math.floor(((number - 1) * students) / count);
  return { from, count: Math.floor((number * students) / count) - from };
}
