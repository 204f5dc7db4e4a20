import fc from "fast-check";
import type { Curriculum } from "../../lib/curriculum/index.js";
import { rungs, settingsText } from "../../lib/drill/index.js";
import {
  beginJournal,
  changeEdition,
  compareEvents,
  type Decision,
  decide,
  drillStanding,
  fold,
  placeByTeacher,
} from "../../lib/progress/index.js";
import type { JournalEvent, Standing, Verdict } from "../../lib/schema/index.js";
import { sample } from "../samples.js";
import { courseOf, type DrillSketch, findingOf, timeOf } from "./course.js";

/** Something that happens in a student's year. `pick` and `level` choose among what there is at that moment. */
export interface Happening {
  readonly what: "take" | "take elsewhere" | "take again" | "teacher" | "edition" | "other device" | "sync";
  readonly verdict: Verdict;
  readonly pick: number;
  readonly level: number;
}

export const happening: fc.Arbitrary<Happening> = fc.record({
  what: fc.oneof(
    { arbitrary: fc.constant("take" as const), weight: 60 },
    { arbitrary: fc.constant("take elsewhere" as const), weight: 3 },
    { arbitrary: fc.constant("take again" as const), weight: 4 },
    { arbitrary: fc.constant("teacher" as const), weight: 1 },
    { arbitrary: fc.constant("edition" as const), weight: 1 },
    { arbitrary: fc.constant("other device" as const), weight: 4 },
    { arbitrary: fc.constant("sync" as const), weight: 4 },
  ),
  verdict: fc.oneof(
    { arbitrary: fc.constant("within" as const), weight: 7 },
    { arbitrary: fc.constant("beyond" as const), weight: 3 },
    { arbitrary: fc.constant("unclear" as const), weight: 1 },
  ),
  pick: fc.nat(1000),
  level: fc.nat(1000),
});

const drills: readonly DrillSketch[] = [
  { name: "steady", tempi: [80, 4, 4], gate: { kind: "in a row", count: 2 }, goBack: { after: 2, by: 1 } },
  { name: "half-bar", tempi: [72, 6, 6], goBack: { after: 3, by: 2 }, needs: ["steady"] },
  {
    name: "one-bar",
    tempi: [60, 10, 5],
    gate: { kind: "sequential", able: 0.9, unready: 0.5, wronglyLetOn: 0.1, wronglyHeld: 0.1 },
    goBack: { after: 4, by: 3 },
    needs: ["steady"],
  },
  {
    name: "two-bars",
    tempi: [60, 5, 4],
    gate: { kind: "clean of last", clean: 4, of: 5 },
    needs: ["half-bar", "one-bar"],
  },
];

/** Editions a teacher might publish in the course of a year: other steps, more rungs, fewer drills, another name, another gate. */
export const EDITIONS: readonly Curriculum[] = [
  courseOf(drills),
  courseOf([{ ...drills[0]!, tempi: [72, 4, 8] }, ...drills.slice(1)], { edition: "1.1.0" }),
  courseOf(
    [drills[0]!, { ...drills[1]!, tempi: [72, 9, 5] }, drills[3]!, { ...drills[2]!, goBack: { after: 1, by: 9 } }],
    {
      edition: "1.2.0",
    },
  ),
  courseOf([drills[0]!, { ...drills[2]!, tempi: [65, 10, 4] }], { edition: "2.0.0" }),
  courseOf(
    [
      { ...drills[0]!, name: "calm" },
      { ...drills[1]!, needs: ["calm"] },
    ],
    { edition: "3.0.0", formerly: { steady: "calm" } },
  ),
];

/** Two devices that hear of each other now and then, and one student who plays on both. */
export interface History {
  /** Every event any device wrote, in the order of writing. */
  readonly journal: readonly JournalEvent[];
  readonly decisions: readonly (Decision & { readonly before: Standing; readonly course: Curriculum })[];
  readonly changes: readonly {
    readonly before: Standing;
    readonly after: Standing;
    readonly course: Curriculum;
    readonly events: readonly JournalEvent[];
  }[];
  /** As the device used last knows it. */
  readonly standing: Standing;
}

interface Device {
  standing: Standing;
  known: JournalEvent[];
}

export function historyOf(happenings: readonly Happening[]): History {
  const begun = beginJournal(EDITIONS[0]!, "tern", timeOf(0));
  const devices: Device[] = [0, 1].map(() => ({ standing: begun.standing, known: [...begun.events] }));
  const history = {
    journal: [...begun.events],
    decisions: [] as History["decisions"][number][],
    changes: [] as History["changes"][number][],
  };
  let edition = 0;
  let present = devices[0]!;
  const keep = (events: readonly JournalEvent[], standing: Standing): void => {
    present.standing = standing;
    present.known.push(...events);
    history.journal.push(...events);
  };
  happenings.forEach((each, i) => {
    const course = EDITIONS[edition]!;
    const at = timeOf(60 * i);
    const drill = course.drills[each.pick % course.drills.length]!;
    const some = settingsText(rungs(drill).at(each.level % rungs(drill).count).settings);
    if (each.what === "other device") present = devices.find((device) => device !== present)!;
    if (each.what === "sync") {
      const known = [...new Set(devices.flatMap((device) => device.known))];
      for (const device of devices) [device.known, device.standing] = [[...known], fold(known).standing!];
    }
    if (each.what === "edition") {
      const before = EDITIONS.find((old) => old.edition === present.standing.edition)!;
      edition = each.pick % EDITIONS.length;
      const change = changeEdition(EDITIONS[edition]!, present.standing, { at, before });
      history.changes.push({
        before: present.standing,
        after: change.standing,
        course: EDITIONS[edition]!,
        events: change.events,
      });
      keep(change.events, change.standing);
    }
    if (each.what === "teacher") {
      const placed = placeByTeacher(course, present.standing, { drill: drill.name, rung: some, at });
      if (placed.ok) keep(placed.value.events, placed.value.standing);
    }
    if (!each.what.startsWith("take")) return;
    const rung = (each.what === "take" ? drillStanding(present.standing, drill.name)?.rung : undefined) ?? some;
    const name = each.what === "take again" ? `t${each.level % (i + 1)}` : `t${i}`;
    const decision = decide(course, present.standing, findingOf(name, drill.name, rung, each.verdict), at);
    history.decisions.push({ ...decision, before: present.standing, course });
    keep(decision.events, decision.standing);
  });
  return { ...history, standing: present.standing };
}

const happenings: fc.Arbitrary<readonly Happening[]> = fc.array(happening, {
  minLength: 1000,
  maxLength: 1000,
  size: "max",
});

/** A year of a thousand happenings. */
export const year: fc.Arbitrary<History> = happenings.map(historyOf);

/** The same with a single device. */
export const yearOnOneDevice: fc.Arbitrary<History> = happenings.map((all) =>
  historyOf(all.filter(({ what }) => what !== "other device")),
);

/** Histories are long, so few are enough: our choice, some seconds for each law. */
export const YEARS = { numRuns: sample({ suite: 6, proof: 100 }), endOnFailure: true } as const;

/** The events of a history in the journal's order, and those of them that had an effect. */
export function inOrder({ journal }: History): {
  readonly events: readonly JournalEvent[];
  readonly effective: readonly JournalEvent[];
} {
  const unique = [...new Map(journal.map((event) => [JSON.stringify(event), event])).values()].sort(compareEvents);
  const idle = new Set(
    fold(unique)
      .problems.filter(({ code }) => code !== "JOURNAL_GAP")
      .map(({ where }) => Number(where.pointer!.slice(1))),
  );
  const seen = new Set<string>();
  const effective = unique.filter((event, i) => {
    if (idle.has(i) || seen.has(event.id)) return false;
    seen.add(event.id);
    return true;
  });
  return { events: unique, effective };
}
