import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { changeEdition, placeByTeacher } from "../../../../lib/progress/index.js";
import { readEvent } from "../../../../lib/progress/journal/readEvent.js";
import type { JournalEvent } from "../../../../lib/schema/index.js";
import { checkEvent } from "../../../../lib/schema/index.js";
import { timeOf } from "../../course.js";
import { EDITIONS, happening, historyOf } from "../../history.js";

/** One event of every kind, as the library writes them. */
const samples: readonly JournalEvent[] = (() => {
  const { journal, standing } = historyOf(fc.sample(happening, { seed: 7, numRuns: 400 }));
  const changed = changeEdition(EDITIONS[4]!, standing, { at: timeOf(9e4) }).events;
  const placement = { drill: "steady", rung: "2", at: timeOf(9e4), teacher: "harbour", because: "Heard it." };
  const placed = placeByTeacher(EDITIONS[0]!, standing, placement);
  const tested = placeByTeacher(EDITIONS[0]!, standing, { ...placement, at: timeOf(9e4 + 1), by: "placement test" });
  const all = [...journal, ...changed, ...[placed, tested].flatMap((each) => (each.ok ? each.value.events : []))];
  const told = { silences: [[-38.4, 9.1, -1.6, null]], reasons: ["TWO_PAIRINGS"] } as const;
  const takes = all.filter((event) => event.kind === "take assessed").slice(0, 2);
  return [...new Map(all.map((event) => [event.kind, event])).values(), ...takes.map((take) => ({ ...take, ...told }))];
})();

const value: fc.Arbitrary<unknown> = fc.oneof(
  fc.jsonValue(),
  fc.constantFrom<unknown>(
    0,
    1,
    -1,
    0.5,
    1.5,
    2 ** 31,
    "",
    "x",
    "x".repeat(201),
    "x".repeat(2001),
    [],
    ["a"],
    [""],
    null,
    {},
    true,
  ),
  fc.constantFrom<unknown>(
    "2026-02-30T25:00:00Z",
    "2026-03-02T17:30:60.5+01:00",
    "2026-03-02t17:30:00z",
    { kind: "in a row", count: 2 },
    { kind: "in a row", count: 2, of: 3 },
    { kind: "clean of last", clean: 0, of: 3 },
    { kind: "sequential", able: 0.9, unready: 1, wronglyLetOn: 0.1, wronglyHeld: 0.1 },
    { driftMs: 3 },
    { driftMs: "3" },
    { clockMs: -1 },
    [[-38.4, 9.1, -1.6, -41]],
    [[null, null, null, null], []],
    [[-38.4, -9.1, -1.6, -41]],
    [[-38.4, 9.1, -1.6]],
    [[-38.4, 9.1, -1.6, -41, 0]],
    [[-38.4, "9.1", -1.6, -41]],
    ["TWO_PAIRINGS"],
    ["two pairings"],
    [`A${"B".repeat(100)}`],
    new Array(101).fill("TWO_PAIRINGS"),
  ),
);

describe("the shape of events", () => {
  test("there is a sample of every kind", () => {
    expect([...new Set(samples.map(({ kind }) => kind))].sort()).toEqual(
      [
        "enrolled",
        "take assessed",
        "advanced",
        "gone back",
        "drill completed",
        "drill opened",
        "edition changed",
        "set by teacher",
      ].sort(),
    );
  });

  test("readEvent() takes exactly what the schema of events takes", () => {
    fc.assert(
      fc.property(fc.constantFrom(...samples), fc.nat(), fc.option(fc.string()), value, (event, pick, extra, held) => {
        const keys = Object.keys(event);
        const key = extra ?? keys[pick % keys.length]!;
        // That the id of a take is made from its name is beyond a schema.
        fc.pre(!(event.kind === "take assessed" && (key === "id" || key === "take")) && key !== "__proto__");
        // Events of version 1 are read as well; the schema is that of events as they are written.
        fc.pre(!(key === "version" && held === 1));
        const changed = { ...event, [key]: held };
        expect("code" in readEvent(changed)).toBe(!checkEvent(changed).ok);
        const { [key as keyof JournalEvent]: _gone, ...without } = event;
        expect("code" in readEvent(without)).toBe(!checkEvent(without).ok);
      }),
      { numRuns: 3000 },
    );
  });

  test("readEvent() refuses any other value with a problem, however deep", () => {
    const deep = JSON.parse("[".repeat(5000) + "]".repeat(5000));
    for (const value of [deep, { version: 2, kind: deep }, { version: deep }, { ...samples[0], id: deep }])
      expect(readEvent(value)).toMatchObject({ code: expect.stringMatching(/^EVENT_/) });
    fc.assert(fc.property(fc.anything(), (anything) => void expect(readEvent(anything)).toHaveProperty("code")));
  });
});
