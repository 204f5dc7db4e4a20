import type { Problem, Result } from "../../base/index.js";

/** Tasks, of which so many run at a time. */
export interface ConcurrentTasks<T, Code extends string> {
  readonly count: number;
  readonly atOnce: number;
  /** Runs one task; must not reject. */
  readonly task: (index: number) => Promise<Result<T, Code>>;
  /** Called once, when a task fails or the signal stops them: ends the tasks that run. */
  readonly end?: () => Promise<void>;
  readonly signal?: AbortSignal | undefined;
  /** The problem to report when the signal stops the tasks; without a signal it is not needed. */
  readonly stopped?: () => Problem<Code>;
}

/**
 * Runs tasks concurrently, in order of their number, until all are done, one fails or the signal stops them.
 *
 * Returns the results of the tasks in their order, with their advice, each sentence once; or the problems of the first that failed. No task runs any more when
 * it returns. Empty: no task, no result. Rejects only as a task does, which must not.
 *
 * @example
 * const doubled = await runConcurrently({ count: 3, atOnce: 2, task: async (i) => ({ ok: true, value: 2 * i, advice: [] }) });
 * doubled.ok && doubled.value.length // 3
 */
export async function runConcurrently<T, Code extends string>(
  tasks: ConcurrentTasks<T, Code>,
): Promise<Result<readonly T[], Code>> {
  const { count, atOnce, task, end, signal, stopped } = tasks;
  const done = new Array<T>(count);
  const advice = new Array<readonly Problem<Code>[]>(count);
  let problems: readonly Problem<Code>[] | undefined;
  let ending: Promise<void> | undefined;
  let next = 0;
  const fail = (found: readonly Problem<Code>[]): void => {
    if (problems !== undefined) return;
    problems = found;
    ending = end?.();
  };
  const interrupt = (): void => fail(stopped === undefined ? [] : [stopped()]);
  if (signal?.aborted) interrupt();
  signal?.addEventListener("abort", interrupt, { once: true });
  const worker = async (): Promise<void> => {
    while (next < count && problems === undefined) {
      const index = next++;
      const result = await task(index);
      if (result.ok) [done[index], advice[index]] = [result.value, result.advice];
      else fail(result.problems);
    }
  };
  await Promise.all(Array.from({ length: Math.min(atOnce, count) }, worker));
  signal?.removeEventListener("abort", interrupt);
  await ending;
  if (problems !== undefined) return { ok: false, problems };
  const distinct = new Map(advice.flat().map((each) => [each.message, each]));
  return { ok: true, value: done, advice: [...distinct.values()] };
}
