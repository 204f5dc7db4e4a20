import type { Problem, Result } from "../problem.js";

/** Tasks, of which so many run at a time. */
export interface ConcurrentTasks<T> {
  readonly count: number;
  readonly atOnce: number;
  /** Runs one task; must not reject. */
  readonly task: (index: number) => Promise<Result<T>>;
  /** Called once, when a task fails or the signal stops them: ends the tasks that run. */
  readonly end: () => Promise<void>;
  readonly signal?: AbortSignal | undefined;
  /** The problem to report when the signal stops the tasks. */
  readonly stopped: () => Problem;
}

/**
 * Runs tasks concurrently, in order of their number, until all are done, one fails or the signal stops them.
 *
 * Returns the results of the tasks in their order, or the problems of the first that failed. No task runs any more when it returns.
 */
export async function runConcurrently<T>(tasks: ConcurrentTasks<T>): Promise<Result<readonly T[]>> {
  const { count, atOnce, task, end, signal, stopped } = tasks;
  const done = new Array<T>(count);
  let problems: readonly Problem[] | undefined;
  let ending: Promise<void> | undefined;
  let next = 0;
  const fail = (found: readonly Problem[]): void => {
    if (problems !== undefined) return;
    problems = found;
    ending = end();
  };
  const interrupt = (): void => fail([stopped()]);
  if (signal?.aborted) interrupt();
  signal?.addEventListener("abort", interrupt, { once: true });
  const worker = async (): Promise<void> => {
    while (next < count && problems === undefined) {
      const index = next++;
      const result = await task(index);
      if (result.ok) done[index] = result.value;
      else fail(result.problems);
    }
  };
  await Promise.all(Array.from({ length: Math.min(atOnce, count) }, worker));
  signal?.removeEventListener("abort", interrupt);
  await ending;
  return problems === undefined ? { ok: true, value: done, advice: [] } : { ok: false, problems };
}
