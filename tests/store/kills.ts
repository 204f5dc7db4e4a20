import { random } from "../../lib/base/index.js";
import { openSqlite } from "../../lib/store/sqlite/index.js";
import { all, keyOf, takesIn } from "./material.js";
import { type Program, run } from "./processes.js";

export interface Kills {
  readonly kills: number;
  readonly acknowledged: number;
  /** Acknowledged takes that the journal does not have. */
  readonly lost: readonly string[];
  /** Takes the journal has more than once. */
  readonly twice: readonly string[];
  /** Writers that gave up waiting for their turn, and said so. What they had been told was kept is among the acknowledged. */
  readonly refused: number;
  /** What writers ended with otherwise, and what opening and verifying the file found, over all rounds. */
  readonly problems: readonly string[];
}

/**
 * How many writers may be refused: those of one round. A writer tries for as long as its patience lasts, 2000 times and more, while every other one
 * is killed within `LONGEST_LIFE` of its first sign of life; so nobody holds the file that long, and a refusal means that the whole machine stood
 * still, which may happen to all writers of a round at once. A second time it is the store that refuses.
 */
export const refusalsAtMost = (writers: number): number => writers;

/** Milliseconds within which a writer is killed; our choice: some dozens of transactions. */
const LONGEST_LIFE = 60;

/**
 * Lets `writers` programs write to one journal and kills each at a moment of its own, again and again, until `kills` were killed; looks at the file
 * after every round.
 */
export async function killWriters(
  program: Program,
  {
    path,
    kills,
    writers,
    seed,
  }: { readonly path: string; readonly kills: number; readonly writers: number; readonly seed: string },
): Promise<Kills> {
  const chance = random(seed);
  const acknowledged = new Set<string>();
  const problems: string[] = [];
  let [killed, round, refused] = [0, 0, 0];
  let takes: readonly string[] = [];
  while (killed < kills && refused <= refusalsAtMost(writers)) {
    round++;
    const runs = await Promise.all(
      Array.from({ length: writers }, (_, i) =>
        // A student for each few rounds, so that journals stay as long as they are in life.
        run(program, [path, `tern-${round % 5}`, `${round}.${i}`, "100000"], {
          killAfter: chance.uniform() * LONGEST_LIFE,
        }),
      ),
    );
    for (const each of runs) {
      killed += each.killed ? 1 : 0;
      refused += each.failed.filter((code) => code === "STORE_BUSY").length;
      problems.push(...each.failed.filter((code) => code !== "STORE_BUSY"), ...(each.err === "" ? [] : [each.err]));
      for (const take of each.kept) acknowledged.add(take);
    }
    const store = await openSqlite(path, { create: false });
    if (!store.ok) {
      problems.push(...store.problems.map(({ message }) => message));
      break;
    }
    for await (const problem of store.value.verify()) problems.push(problem.message);
    const everyone = await all(store.value.journals());
    const lists = await Promise.all(
      everyone.map(async ({ student }) => takesIn(await all(store.value.events(keyOf(student))))),
    );
    takes = lists.flat();
    await store.value.close();
  }
  const held = new Set(takes);
  return {
    kills: killed,
    acknowledged: acknowledged.size,
    lost: [...acknowledged].filter((take) => !held.has(take)),
    twice: takes.filter((take, i) => takes.indexOf(take) !== i),
    refused,
    problems,
  };
}
