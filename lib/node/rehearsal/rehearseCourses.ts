import { availableParallelism } from "node:os";
import { Tinypool } from "tinypool";
import { failure, problemsOf, success } from "../../base/index.js";
import type { Curriculum } from "../../curriculum/index.js";
import {
  joinParts,
  partOf,
  prepareRehearsal,
  type Rehearsal,
  type RehearsalOptions,
  type RehearsedPart,
  type RungPlays,
  rungsToPlay,
  type StudentRange,
} from "../../rehearsal/index.js";
import { runConcurrently } from "../batch/concurrentTasks.js";
import { endPool } from "../batch/endPool.js";
import { sha256 } from "../batch/fileRecord.js";
import { nodeCodes } from "../codes.js";
import { textOf } from "../fileProblem.js";
import type { Problem, Result } from "../problem.js";
import { sayProblem } from "../say.js";
import { keptTexts } from "./keptTexts.js";
import { type PartTask, type PlayTask, type RehearsalTask, workOn } from "./task.js";

const problem = problemsOf(nodeCodes);

/** What a rehearsal on all cores is to do. */
export interface RehearsingOptions extends StudentRange {
  /** Every take played and assessed, in place of being drawn from the table. */
  readonly played?: boolean;
  /** Threads at the same time; one for each core when left out. With 1 there is none beside the caller's. */
  readonly workers?: number | undefined;
  /** Where plays of rungs are kept for the next rehearsal, and finished students until this one is complete. */
  readonly keep?: string | undefined;
  /** Called after every piece of work. */
  readonly onProgress?: ((progress: RehearsingProgress) => void) | undefined;
  readonly signal?: AbortSignal | undefined;
}

/** How far a rehearsal has come: rungs played for the table, then students. */
export interface RehearsingProgress {
  readonly of: "rungs" | "students";
  readonly done: number;
  readonly total: number;
}

/** A course and how it is rehearsed. */
export interface CourseToRehearse {
  readonly course: Curriculum;
  readonly options: RehearsalOptions;
}

/** Students of one piece of work, drawn or played: our choice, some tenths of a second to some seconds. */
const DRAWN_AT_ONCE = 250;
const PLAYED_AT_ONCE = 5;

/**
 * Rehearses one or more courses with the same students on all cores. The result is the same whatever the number of threads. After an interruption the same call goes on
 * where `keep` says it was.
 *
 * Problems: those of writing (OUTPUT_...), REHEARSAL_STOPPED, REHEARSAL_FAILED.
 *
 * @example
 * const done = await rehearseCourses([{ course, options: { drills: [] } }], { from: 0, count: 2, workers: 1 });
 * done.ok && done.value.part.courses.length // 1
 */
export async function rehearseCourses(
  courses: readonly CourseToRehearse[],
  options: RehearsingOptions,
): Promise<Result<{ readonly rehearsals: readonly Rehearsal[]; readonly part: RehearsedPart }>> {
  const hands = openHands(options.workers ?? availableParallelism());
  try {
    const plays = await playAll(courses, options, hands);
    if (!plays.ok) return plays;
    const rehearsals = courses.map(({ course, options: terms }) =>
      prepareRehearsal(course, terms, (key) => plays.value.get(key)),
    );
    const part = await rehearseAll(courses, rehearsals, { ...options, hands });
    return part.ok ? success({ rehearsals, part: part.value }) : part;
  } finally {
    await hands.end();
  }
}

/** Who does the tasks: threads, or the caller's own. */
interface Hands {
  readonly atOnce: number;
  run(task: RehearsalTask): Promise<string>;
  end(): Promise<void>;
}

function openHands(workers: number): Hands {
  if (!(Number.isInteger(workers) && workers >= 1))
    throw new RangeError(`workers is a whole number from 1, got ${workers}`);
  if (workers === 1) return { atOnce: 1, run: async (task) => workOn(task), end: async () => {} };
  const pool = new Tinypool({
    // Beside this file once it is compiled.
    filename: new URL("./rehearser.js", import.meta.url).href,
    minThreads: workers,
    maxThreads: workers,
  });
  return { atOnce: workers, run: (task) => pool.run(task), end: () => endPool(pool) };
}

async function playAll(
  courses: readonly CourseToRehearse[],
  { keep, onProgress, signal }: RehearsingOptions,
  hands: Hands,
): Promise<Result<ReadonlyMap<string, RungPlays>>> {
  const kept = keptTexts(keep);
  const tasks = new Map<string, PlayTask>();
  for (const { course, options } of courses)
    for (const { key } of rungsToPlay(course, options)) tasks.set(key, { course, options, key });
  const all = [...tasks.values()];
  let done = 0;
  const task = async (index: number): Promise<Result<readonly [string, RungPlays]>> => {
    const { key } = all[index]!;
    const known = await kept.get(key);
    const text = known ?? (await hands.run(all[index]!));
    const written = known === undefined ? await kept.put(key, text) : success(undefined);
    if (!written.ok) return written;
    onProgress?.({ of: "rungs", done: ++done, total: all.length });
    return success([key, JSON.parse(text) as RungPlays]);
  };
  const made = await runConcurrently({ ...tasked(task, hands), count: all.length, signal });
  return made.ok ? success(new Map(made.value)) : made;
}

async function rehearseAll(
  courses: readonly CourseToRehearse[],
  rehearsals: readonly Rehearsal[],
  { from, count, played = false, keep, onProgress, signal, hands }: RehearsingOptions & { readonly hands: Hands },
): Promise<Result<RehearsedPart>> {
  const kept = keptTexts(keep);
  const task = courses.map(({ course, options }, i) => ({ course, options, rows: rehearsals[i]!.rows }));
  const run = sha256(JSON.stringify([PARTS_VERSION, task, played]));
  const size = played ? PLAYED_AT_ONCE : DRAWN_AT_ONCE;
  const parts = Array.from({ length: Math.max(1, Math.ceil(count / size)) }, (_, i): PartTask => {
    const start = from + i * size;
    return { run, courses: task, from: start, count: Math.min(size, from + count - start), played };
  });
  const keyOf = (part: PartTask): string => `${run}/${part.from}/${part.count}`;
  let done = 0;
  const rehearse = async (index: number): Promise<Result<RehearsedPart>> => {
    const part = parts[index]!;
    const known = await kept.get(keyOf(part));
    const text = known ?? (await hands.run(part));
    const written = known === undefined ? await kept.put(keyOf(part), text) : success(undefined);
    if (!written.ok) return written;
    done += part.count;
    onProgress?.({ of: "students", done, total: count });
    return success(partOf(text));
  };
  const made = await runConcurrently({ ...tasked(rehearse, hands), count: parts.length, signal });
  if (!made.ok) return made;
  for (const part of parts) await kept.remove(keyOf(part));
  return success(joinParts(made.value));
}

/** Raised whenever the same courses and students would come to other parts. */
const PARTS_VERSION = 2;

/** Tasks whose errors are problems. */
function tasked<T>(
  work: (index: number) => Promise<Result<T>>,
  hands: Hands,
): {
  readonly atOnce: number;
  readonly task: (index: number) => Promise<Result<T>>;
  readonly end: () => Promise<void>;
  readonly stopped: () => Problem;
} {
  return {
    atOnce: hands.atOnce,
    end: () => hands.end(),
    task: (index) =>
      work(index).catch((error: unknown) =>
        failure(problem("REHEARSAL_FAILED", sayProblem("node-problem.rehearsal-failed", { error: textOf(error) }))),
      ),
    stopped: () =>
      problem(
        "REHEARSAL_STOPPED",
        sayProblem("node-problem.rehearsal-stopped"),
        {},
        sayProblem("node-problem.rehearsal-stopped-remedy"),
      ),
  };
}
