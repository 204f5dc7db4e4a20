import type { Curriculum } from "../curriculum/index.js";
import type { OpenReport } from "../report/index.js";
import type { Store } from "../store/index.js";
import type { CourseFinder } from "./keptCourses.js";

/** Editions that a report looks for, each once. */
export interface Editions {
  find(curriculum: string, edition: string): Promise<Curriculum | undefined>;
  /** Those that were not found. */
  readonly missing: readonly { readonly curriculum: string; readonly edition: string }[];
}

export function openEditions(courseOf: CourseFinder | undefined): Editions {
  const found = new Map<string, Curriculum | undefined>();
  const missing: { curriculum: string; edition: string }[] = [];
  return {
    missing,
    find: async (curriculum, edition) => {
      const name = JSON.stringify([curriculum, edition]);
      if (!found.has(name)) {
        const course = await courseOf?.(curriculum, edition);
        found.set(name, course);
        if (course === undefined) missing.push({ curriculum, edition });
      }
      return found.get(name);
    },
  };
}

/** Adds what a store keeps of these students in a course to a report; gives who of them was there. */
export async function addSummaries(
  report: OpenReport,
  store: Store,
  {
    curriculum,
    students,
    editions,
  }: { readonly curriculum: string; readonly students: readonly string[]; readonly editions: Editions },
): Promise<ReadonlySet<string>> {
  const there = new Set<string>();
  for (const { student, summary } of await store.summaries({ curriculum, students })) {
    const course = await editions.find(curriculum, summary.edition);
    report.add({ student, curriculum, summary, courseOf: () => course });
    there.add(student);
  }
  return there;
}
