import { availableParallelism } from "node:os";
import { type Problem, type Result, success } from "../../base/index.js";
import type { FilmJob } from "./films.js";

/** Films that are made at the same time; our choice, as measured on two cores: one paints while another encodes. */
const AT_ONCE = Math.min(2, availableParallelism());

/** Makes films, some at a time, in order; the first that fails is the last. Gives what each gave. */
export async function makeFilms<T>(
  jobs: readonly FilmJob[],
  make: (job: FilmJob) => Promise<Result<T>>,
): Promise<Result<readonly T[]>> {
  const made = new Array<T>(jobs.length);
  const advice = new Map<string, Problem>();
  let failed: Result<never> | undefined;
  let next = 0;
  const maker = async (): Promise<void> => {
    while (next < jobs.length && failed === undefined) {
      const index = next++;
      const one = await make(jobs[index]!);
      if (one.ok) {
        made[index] = one.value;
        for (const each of one.advice) advice.set(each.message, each);
      } else failed ??= one;
    }
  };
  await Promise.all(Array.from({ length: AT_ONCE }, maker));
  return failed ?? success(made, [...advice.values()]);
}
