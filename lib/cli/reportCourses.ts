import type { Curriculum, Problem, Result } from "../index.js";
import type { Store } from "../store/index.js";
import { openKeptCourse } from "./keptCourse.js";

/** The courses a store keeps, each edition read once. */
export interface KeptCourses {
  read(curriculum: string, edition: string): Promise<void>;
  /** An edition that was read; `undefined` when it is not kept or cannot be used. */
  find(curriculum: string, edition: string): Curriculum | undefined;
  /** What was wrong with editions that were looked for and not found. */
  problems(): readonly Problem[];
}

export function openCourses(store: Store): KeptCourses {
  const known = new Map<string, Result<Curriculum>>();
  const missed = new Map<string, readonly Problem[]>();
  const nameOf = (curriculum: string, edition: string): string => JSON.stringify([curriculum, edition]);
  return {
    read: async (curriculum, edition) => {
      const name = nameOf(curriculum, edition);
      if (!known.has(name)) known.set(name, await openKeptCourse(store, { curriculum, edition }));
    },
    find: (curriculum, edition) => {
      const name = nameOf(curriculum, edition);
      const found = known.get(name);
      if (found?.ok === false) missed.set(name, found.problems);
      return found?.ok === true ? found.value : undefined;
    },
    problems: () => [...missed.values()].flat(),
  };
}
