import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Curriculum } from "../../../lib/curriculum/index.js";
import { rungs, settingsText } from "../../../lib/drill/index.js";
import {
  beginJournal,
  changeEdition,
  decide,
  drillStanding,
  fold,
  isCompleted,
  placeByTeacher,
  standingText,
} from "../../../lib/progress/index.js";
import type { JournalEvent, Standing } from "../../../lib/schema/index.js";
import { sample } from "../../samples.js";
import { courseOf, findingOf, timeOf } from "../course.js";
import { type Happening, happening } from "../history.js";

/** Short ladders, so that drills are completed, and editions that change everything a teacher may change. */
const SHORT: readonly Curriculum[] = [
  courseOf([
    { name: "steady", tempi: [80, 4, 2], gate: { kind: "in a row", count: 2 }, goBack: { after: 2, by: 1 } },
    { name: "half-bar", tempi: [72, 6, 2], gate: { kind: "in a row", count: 1 }, needs: ["steady"] },
  ]),
  courseOf(
    [
      { name: "steady", tempi: [76, 4, 3], gate: { kind: "in a row", count: 1 }, goBack: { after: 1, by: 1 } },
      { name: "half-bar", tempi: [72, 6, 3], needs: ["steady"] },
    ],
    { edition: "1.1.0" },
  ),
  courseOf(
    [
      { name: "calm", tempi: [80, 4, 3], gate: { kind: "in a row", count: 1 }, goBack: { after: 2, by: 2 } },
      { name: "half-bar", tempi: [72, 6, 2], gate: { kind: "in a row", count: 1 }, needs: ["calm"] },
    ],
    { edition: "2.0.0", formerly: { steady: "calm" } },
  ),
];

interface Device {
  standing: Standing;
  known: JournalEvent[];
}

/** What one device does without hearing of the other. Takes may come to both devices: their names are drawn from few. */
function goOn(from: Device, happenings: readonly Happening[], { own }: { readonly own: string }): Device {
  const device = { standing: from.standing, known: [...from.known] };
  let course = SHORT.find(({ edition }) => edition === from.standing.edition)!;
  const keep = ({
    events,
    standing,
  }: {
    readonly events: readonly JournalEvent[];
    readonly standing: Standing;
  }): void => {
    device.known.push(...events);
    device.standing = standing;
  };
  happenings.forEach((each, i) => {
    const at = timeOf(60 * (device.known.length + i));
    const drill = course.drills[each.pick % course.drills.length]!;
    const some = settingsText(rungs(drill).at(each.level % rungs(drill).count).settings);
    if (each.what === "edition") {
      const before = course;
      course = SHORT[each.pick % SHORT.length]!;
      keep(changeEdition(course, device.standing, { at, before }));
    } else if (each.what === "teacher") {
      const placed = placeByTeacher(course, device.standing, { drill: drill.name, rung: some, at });
      if (placed.ok) keep(placed.value);
    } else {
      const rung =
        (each.what === "take elsewhere" ? undefined : drillStanding(device.standing, drill.name)?.rung) ?? some;
      const take = each.what === "take again" || each.what === "sync" ? `both${each.level % 20}` : `${own}${i}`;
      keep(decide(course, device.standing, findingOf(take, drill.name, rung, each.verdict), at));
    }
  });
  return device;
}

interface Fork {
  readonly one: Device;
  readonly two: Device;
  readonly merged: readonly JournalEvent[];
}

const some = (most: number): fc.Arbitrary<readonly Happening[]> =>
  fc.array(happening, { maxLength: most, size: "max" });
function forked(common: readonly Happening[], left: readonly Happening[], right: readonly Happening[]): Fork {
  const begun = beginJournal(SHORT[0]!, "tern", timeOf(0));
  const shared = goOn({ standing: begun.standing, known: [...begun.events] }, common, { own: "s" });
  const [one, two] = [goOn(shared, left, { own: "a" }), goOn(shared, right, { own: "b" })];
  return { one, two, merged: [...new Set([...one.known, ...two.known])] };
}

const fork: fc.Arbitrary<Fork> = fc.tuple(some(6), some(12), some(12)).map((all) => forked(...all));

/** The same without teachers, editions and takes that come to both devices. */
const forkOfTakes: fc.Arbitrary<Fork> = fc.tuple(some(6), some(12), some(12)).map(([common, left, right]) => {
  const plain = (all: readonly Happening[]): readonly Happening[] => all.map((each) => ({ ...each, what: "take" }));
  return forked(plain(common), plain(left), plain(right));
});

const within: Happening = { what: "take", verdict: "within", pick: 0, level: 0 };
const beyond: Happening = { ...within, verdict: "beyond" };

/** The names that a drill was given by editions. */
function namesSince(events: readonly JournalEvent[], drill: string): ReadonlySet<string> {
  const names = new Set([drill]);
  for (const event of [...events].sort((a, b) => a.turn - b.turn))
    if (event.kind === "edition changed") for (const { from, to } of event.renamed) if (names.has(from)) names.add(to);
  return names;
}

const FORKS = { numRuns: sample({ suite: 400, proof: 50_000 }) };
const errorsOf = (events: readonly JournalEvent[]): readonly string[] =>
  fold(events).problems.flatMap(({ severity, code, message }) => (severity === "error" ? [`${code}: ${message}`] : []));

describe("two devices that diverge honestly", () => {
  test("never end in an error", () => {
    fc.assert(
      fc.property(fork, ({ merged }) => void expect(errorsOf(merged)).toEqual([])),
      FORKS,
    );
  });

  test("come to one standing, whichever hears of the other first, and goes on from there without an error", () => {
    fc.assert(
      fc.property(fork, some(6), ({ one, two, merged }, later) => {
        const standing = fold([...one.known, ...two.known]).standing!;
        expect(standingText(fold([...two.known, ...one.known].reverse()).standing!)).toBe(standingText(standing));
        const after = goOn({ standing, known: [...merged] }, later, { own: "c" });
        expect(errorsOf(after.known)).toEqual([]);
        expect(standingText(fold(after.known).standing!)).toBe(standingText(after.standing));
      }),
      FORKS,
    );
  });

  test("do not lose what was completed on one of them without being told", () => {
    fc.assert(
      fc.property(fork, ({ one, two, merged }) => {
        const { standing, problems } = fold(merged);
        for (const { completed, drill, rungs: held, ...rest } of [...one.standing.drills, ...two.standing.drills]) {
          if (completed === undefined || isCompleted(standing!, drill)) continue;
          // A drill that has another name now is completed all the same, be it by the completion of the other device.
          const renamed = standing!.drills.some(
            (now) =>
              now.completed?.event === completed.event ||
              (now.completed !== undefined && namesSince(merged, drill).has(now.drill)),
          );
          const told = problems.some(
            ({ code, message, remedy }) =>
              code === "DECISION_OVERTAKEN" && message.includes(completed.event) && remedy !== undefined,
          );
          expect(renamed || told, JSON.stringify({ drill, completed, rest, held })).toBe(true);
        }
      }),
      FORKS,
    );
  });

  test("keep what was completed on one of them when each take was told once, whatever the other one decided", () => {
    fc.assert(
      fc.property(forkOfTakes, ({ one, two, merged }) => {
        const { standing } = fold(merged);
        for (const { state, drill } of [...one.standing.drills, ...two.standing.drills])
          if (state === "complete") expect(drillStanding(standing!, drill)).toMatchObject({ state, completed: {} });
      }),
      FORKS,
    );
  });

  test("a student who went back on one device and completed the drill on the other has completed it", () => {
    const begun = beginJournal(SHORT[0]!, "tern", timeOf(0));
    const start = { standing: begun.standing, known: [...begun.events] };
    const shared = goOn(start, [within, within], { own: "s" });
    const [back, done] = [goOn(shared, [beyond, beyond], { own: "a" }), goOn(shared, [within, within], { own: "b" })];
    expect(drillStanding(back.standing, "steady")).toMatchObject({ state: "open", by: "gone back" });
    expect(drillStanding(done.standing, "steady")).toMatchObject({ state: "complete" });
    const merged = fold([...back.known, ...done.known]);
    expect(merged.problems.map(({ severity }) => severity)).not.toContain("error");
    expect(drillStanding(merged.standing!, "steady")).toMatchObject({ state: "complete" });
    expect(drillStanding(merged.standing!, "half-bar")).toMatchObject({ state: "open" });
  });

  test("what is told next comes after what was overtaken, so that it does not bring it back into effect", () => {
    const begun = beginJournal(SHORT[0]!, "tern", timeOf(0));
    const shared = goOn({ standing: begun.standing, known: [...begun.events] }, [within, within], { own: "s" });
    const done = goOn(shared, [within, within], { own: "a" });
    const edition: Happening = { ...within, what: "edition", pick: 2 };
    const elsewhere = [beyond, beyond, edition, within, { ...within, pick: 1 }, beyond, beyond];
    const back = goOn(shared, elsewhere, { own: "b" });
    const known = [...new Set([...done.known, ...back.known])];
    const standing = fold(known).standing!;
    const highest = Math.max(...known.map(({ turn }) => turn));
    expect(standing.latest.turn).toBe(highest);
    const after = goOn({ standing, known }, [beyond], { own: "c" });
    expect(after.known.slice(known.length).every(({ turn }) => turn > highest)).toBe(true);
    expect(standingText(fold(after.known).standing!)).toBe(standingText(after.standing));
  });

  test("a drill that both devices completed is completed under the name that an edition gives it", () => {
    const begun = beginJournal(SHORT[0]!, "tern", timeOf(0));
    const shared = goOn({ standing: begun.standing, known: [...begun.events] }, [within, within], { own: "s" });
    const [one, other] = ["a", "b"].map((own) => goOn(shared, [within, within], { own }));
    const renamed = goOn(other!, [{ ...within, what: "edition", pick: 2 }], { own: "b" });
    const { standing } = fold([...one!.known, ...renamed.known]);
    expect(isCompleted(standing!, "calm")).toBe(true);
  });

  test("a teacher's placement stays, and the completion of the other device is kept beside it", () => {
    const begun = beginJournal(SHORT[0]!, "tern", timeOf(0));
    const shared = goOn({ standing: begun.standing, known: [...begun.events] }, [within, within], { own: "s" });
    const placed = goOn(shared, [{ ...within, what: "teacher", level: 0 }], { own: "a" });
    const done = goOn(shared, [within, within], { own: "b" });
    const { standing } = fold([...placed.known, ...done.known]);
    expect(drillStanding(standing!, "steady")).toMatchObject({ state: "open", by: "set by teacher", completed: {} });
    expect(drillStanding(standing!, "half-bar")).toMatchObject({ state: "open" });
  });

  test("a forged decision is an error all the same: a take nobody told, a verdict nobody told, a gate not met", () => {
    fc.assert(
      fc.property(fork, fc.nat(), ({ merged }, way) => {
        const { standing } = fold(merged);
        const { turn, at, student, curriculum } = { ...merged.at(-1)!, turn: standing!.latest.turn + 1 };
        const base = {
          version: 2,
          turn,
          at,
          student,
          curriculum,
          id: "forged",
          against: [],
          to: "tempo=84,variant=plain",
        };
        const honest = merged.find((event) => event.kind === "take assessed" && event.verdict !== "within");
        const evidence = way % 2 === 0 || honest?.kind !== "take assessed" ? ["never played"] : [honest.take];
        const drill = honest?.kind === "take assessed" ? honest.drill : "steady";
        const from = honest?.kind === "take assessed" ? honest.rung : "tempo=80,variant=plain";
        const forged = { ...base, kind: "advanced", drill, from, gate: { kind: "in a row", count: 1 }, evidence };
        const told = merged.some(
          (event) => event.kind === "take assessed" && event.take === evidence[0] && event.verdict === "within",
        );
        fc.pre(!told);
        expect(errorsOf([...merged, forged as JournalEvent])).toHaveLength(1);
      }),
      FORKS,
    );
  });
});
