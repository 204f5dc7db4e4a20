import type { Curriculum } from "../curriculum/index.js";
import { type CourseDecision, isByEdition } from "../progress/index.js";
import type { JournalEvent } from "../schema/index.js";
import type { JournalKey, Store } from "../store/index.js";
import { practiceProblem } from "./codes.js";
import { readKeptCourse } from "./keptCourses.js";
import type { Problem } from "./problem.js";
import { sayProblem } from "./say.js";

/**
 * What is wrong with the journals of a store, or with one of them: the problems of `store.verify`, and the decisions that are not those of the course. Each
 * advance, completion, step back and opening of a drill is compared with the edition it was made in, as the store keeps it.
 *
 * Problems: those of `store.verify`; DECISION_NOT_OF_COURSE; EDITION_NOT_COMPARED (advice), when the store does not keep an edition. No problems: all is well.
 * Rejects with a `StoreProblem` when the store fails.
 *
 * @example
 * for await (const { code, message } of verifyJournals(memoryStore())) console.log(code, message); // nothing: no journals
 */
export async function* verifyJournals(store: Store, key?: JournalKey): AsyncIterable<Problem> {
  yield* store.verify(key);
  const courses = textsIn(store);
  const missed = new Set<string>();
  for await (const each of key === undefined ? store.journals() : [key])
    for await (const problem of compareDecisions(store, each, courses)) {
      // Every journal of an edition that is not kept would say so.
      const isNew = problem.code !== "EDITION_NOT_COMPARED" || !missed.has(problem.message);
      missed.add(problem.message);
      if (isNew) yield problem;
    }
}

type Texts = (curriculum: string, edition: string) => Promise<readonly Curriculum[]>;

/** Every text that a store keeps of an edition, each read once. One that was replaced may be the one that decided. */
function textsIn(store: Store): Texts {
  const known = new Map<string, Promise<readonly Curriculum[]>>();
  const read = async (curriculum: string, edition: string): Promise<readonly Curriculum[]> =>
    (await store.courses(curriculum, edition)).flatMap((text) => {
      const course = readKeptCourse(text);
      return course.ok ? [course.value] : [];
    });
  return (curriculum, edition) => {
    const name = JSON.stringify([curriculum, edition]);
    if (!known.has(name)) known.set(name, read(curriculum, edition));
    return known.get(name)!;
  };
}

async function* compareDecisions(store: Store, key: JournalKey, texts: Texts): AsyncIterable<Problem> {
  /** Take -> the editions it was told in. */
  const playedIn = new Map<string, readonly string[]>();
  const editions: string[] = [];
  for await (const event of store.events(key)) {
    if (event.kind === "enrolled") editions.push(event.edition);
    if (event.kind === "edition changed") editions.push(event.to);
    if (event.kind === "take assessed") playedIn.set(event.take, [...(playedIn.get(event.take) ?? []), event.edition]);
    if (!isDecision(event)) continue;
    // A device that has not heard of a new edition decides by its own: that of the take, or any before for a drill that opens.
    const last = "evidence" in event ? event.evidence.at(-1)! : undefined;
    const made = last === undefined ? editions : [...(playedIn.get(last) ?? []), ...editions.slice(-1)];
    const candidates = [...new Set(made)];
    const courses = await Promise.all(candidates.map((edition) => texts(key.curriculum, edition)));
    if (courses.flat().some((course) => isByEdition(course, event))) continue;
    const unkept = candidates.filter((_, i) => courses[i]!.length === 0);
    if (unkept.length === 0) yield notOfCourse(key, event, candidates);
    for (const edition of unkept) yield notCompared(store, key, edition);
  }
}

function isDecision(event: JournalEvent): event is CourseDecision {
  return (
    event.kind === "advanced" ||
    event.kind === "drill completed" ||
    event.kind === "gone back" ||
    event.kind === "drill opened"
  );
}

function notOfCourse({ student, curriculum }: JournalKey, event: CourseDecision, editions: readonly string[]): Problem {
  const what = { id: event.id, student, course: curriculum, drill: event.drill, editions };
  const message = sayProblem("practice-problem.decision-not-of-course", what);
  const remedy = sayProblem("practice-problem.decision-not-of-course-remedy");
  return practiceProblem("DECISION_NOT_OF_COURSE", message, {}, remedy);
}

function notCompared(store: Store, { curriculum }: JournalKey, edition: string): Problem {
  const what = { edition, course: curriculum, place: store.place };
  const message = sayProblem("practice-problem.edition-not-compared", what);
  const remedy = sayProblem("practice-problem.edition-not-compared-remedy");
  return practiceProblem("EDITION_NOT_COMPARED", message, {}, remedy);
}
