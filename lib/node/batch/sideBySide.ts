import type { Problem, Result } from "../../base/index.js";

/** Many pieces of work, so many at a time. */
export interface Work<T> {
  readonly count: number;
  readonly atOnce: number;
  /** Does one piece; must not reject. */
  readonly piece: (index: number) => Promise<Result<T>>;
  /** Called once, when a piece fails or the work is stopped: ends what is in hand. */
  readonly end: () => Promise<void>;
  readonly signal?: AbortSignal | undefined;
  /** The problem to report when the signal stops the work. */
  readonly stopped: () => Problem;
}

/**
 * Does pieces of work side by side, in order of their number, until all are done, one fails or the signal stops them.
 *
 * What the pieces gave, in their order; or the problems of the first that failed. Nothing is in hand any more when it returns.
 */
export async function sideBySide<T>(work: Work<T>): Promise<Result<readonly T[]>> {
  const { count, atOnce, piece, end, signal, stopped } = work;
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
      const result = await piece(index);
      if (result.ok) done[index] = result.value;
      else fail(result.problems);
    }
  };
  await Promise.all(Array.from({ length: Math.min(atOnce, count) }, worker));
  signal?.removeEventListener("abort", interrupt);
  await ending;
  return problems === undefined ? { ok: true, value: done, advice: [] } : { ok: false, problems };
}
