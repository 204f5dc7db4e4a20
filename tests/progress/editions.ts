import fc from "fast-check";
import type { Curriculum } from "../../lib/curriculum/index.js";
import { rungs, settingsText } from "../../lib/drill/index.js";
import { beginJournal, changeEdition, decide, drillStanding, placeByTeacher } from "../../lib/progress/index.js";
import type { JournalEvent, Standing, Verdict } from "../../lib/schema/index.js";
import { courseOf, type DrillSketch, findingOf, timeOf } from "./course.js";

/** Random courses, random edits of them, and students who are in the middle of them. */
const NAMES = ["steady", "half-bar", "one-bar", "two-bars"] as const;

const sketch = (name: string, needs: readonly string[]): fc.Arbitrary<DrillSketch> =>
  fc.record({
    name: fc.constant(name),
    tempi: fc.tuple(fc.constantFrom(60, 64, 70), fc.constantFrom(2, 4, 5), fc.integer({ min: 1, max: 6 })),
    gate: fc.constantFrom<NonNullable<DrillSketch["gate"]>>(
      { kind: "in a row", count: 1 },
      { kind: "in a row", count: 2 },
      { kind: "clean of last", clean: 2, of: 3 },
    ),
    goBack: fc.constantFrom({ after: 2, by: 1 }, { after: 3, by: 2 }),
    needs: fc.subarray([...needs]),
  });

export const drills: fc.Arbitrary<readonly DrillSketch[]> = fc
  .integer({ min: 1, max: NAMES.length })
  .chain((count) => fc.tuple(...NAMES.slice(0, count).map((name, i) => sketch(name, NAMES.slice(0, i)))));

/** What a teacher does to one drill of a course; `pick` chooses the drill. */
interface Edit {
  readonly what: "tempi" | "gate" | "remove" | "rename" | "add" | "needs" | "swap";
  readonly pick: number;
  readonly tempi: DrillSketch["tempi"];
}

const edit: fc.Arbitrary<Edit> = fc.record({
  what: fc.constantFrom("tempi", "tempi", "tempi", "gate", "remove", "rename", "rename", "add", "needs", "swap"),
  pick: fc.nat(20),
  tempi: fc.tuple(fc.constantFrom(60, 62, 64, 68, 70), fc.constantFrom(2, 4, 5, 8), fc.integer({ min: 1, max: 7 })),
});

export interface Pair {
  readonly old: Curriculum;
  readonly now: Curriculum;
}

function edited(sketches: readonly DrillSketch[], edits: readonly Edit[]): Curriculum {
  let list = [...sketches];
  const formerly: Record<string, string> = {};
  for (const [i, { what, pick, tempi }] of edits.entries()) {
    const at = pick % list.length;
    const drill = list[at]!;
    if (what === "tempi") list[at] = { ...drill, tempi };
    if (what === "gate") list[at] = { ...drill, gate: { kind: "in a row", count: 1 + (pick % 3) } };
    if (what === "needs") list[at] = { ...drill, needs: [] };
    if (what === "swap") list = [...list.slice(at), ...list.slice(0, at)];
    if (what === "add") list.push({ name: `added-${i}`, tempi });
    if (what === "remove" && list.length > 1) {
      list = list.filter((each) => each !== drill).map((each) => ({ ...each, needs: without(each.needs, drill.name) }));
    }
    if (what === "rename" && sketches.some(({ name }) => name === drill.name)) {
      const name = `${drill.name}-anew`;
      formerly[drill.name] = name;
      list = list.map((each) => (each === drill ? { ...each, name } : each));
      list = list.map((each) => ({
        ...each,
        needs: each.needs?.map((need) => (need === drill.name ? name : need)) ?? [],
      }));
    }
  }
  const present = new Set(list.map(({ name }) => name));
  const kept = Object.entries(formerly).filter(([, name]) => present.has(name));
  return courseOf(list, { edition: "2.0.0", formerly: Object.fromEntries(kept) });
}

const without = (needs: readonly string[] | undefined, name: string): readonly string[] =>
  (needs ?? []).filter((need) => need !== name);

/** A course and its next edition. */
export const pair: fc.Arbitrary<Pair> = fc
  .tuple(drills, fc.array(edit, { minLength: 1, maxLength: 4 }))
  .map(([sketches, edits]) => ({ old: courseOf(sketches), now: edited(sketches, edits) }));

interface Step {
  readonly verdict: Verdict;
  readonly pick: number;
  readonly what: "take" | "take elsewhere" | "teacher";
  readonly level: number;
}

export const steps: fc.Arbitrary<readonly Step[]> = fc.array(
  fc.record({
    verdict: fc.constantFrom<Verdict>("within", "within", "within", "beyond", "unclear"),
    what: fc.constantFrom("take", "take", "take", "take", "take", "take", "take elsewhere", "teacher"),
    pick: fc.nat(20),
    level: fc.nat(20),
  }),
  { maxLength: 60 },
);

export interface Studied {
  readonly standing: Standing;
  readonly journal: readonly JournalEvent[];
}

/** A student who has enrolled in a course and done so much in it. */
export function study(course: Curriculum, done: readonly Step[]): Studied {
  const begun = beginJournal(course, "tern", timeOf(0));
  return goOn(course, { standing: begun.standing, journal: begun.events }, { done, from: 0 });
}

/** The same student, going on; takes are numbered from `from`. */
export function goOn(
  course: Curriculum,
  studied: Studied,
  { done, from }: { readonly done: readonly Step[]; readonly from: number },
): Studied {
  const journal = [...studied.journal];
  let { standing } = studied;
  done.forEach(({ what, verdict, pick, level }, i) => {
    const at = timeOf(60 * (from + i + 1));
    const drill = course.drills[pick % course.drills.length]!;
    const some = settingsText(rungs(drill).at(level % rungs(drill).count).settings);
    if (what === "teacher") {
      const placed = placeByTeacher(course, standing, { drill: drill.name, rung: some, at });
      if (!placed.ok) return;
      journal.push(...placed.value.events);
      standing = placed.value.standing;
      return;
    }
    const rung = (what === "take" ? drillStanding(standing, drill.name)?.rung : undefined) ?? some;
    const decision = decide(course, standing, findingOf(`t${from + i}`, drill.name, rung, verdict), at);
    journal.push(...decision.events);
    standing = decision.standing;
  });
  return { standing, journal };
}

/** Takes a student over into an edition. */
export function takeOver(
  now: Curriculum,
  { standing, journal }: Studied,
  { before, at }: { readonly before: Curriculum; readonly at: number },
): Studied {
  const change = changeEdition(now, standing, { before, at: timeOf(at) });
  return { standing: change.standing, journal: [...journal, ...change.events] };
}
