import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Curriculum, carriedTo, compareEditions } from "../../../lib/curriculum/index.js";
import { type Ladder, ladderValue, rungs, settingsText } from "../../../lib/drill/index.js";
import { change, edition, type Writing } from "./writing.js";

const valuesOf = (ladder: Ladder): readonly string[] =>
  Array.from({ length: ladder.count }, (_, k) => ladderValue(ladder, k));

/** How many rungs of the old drill are carried, by asking for each. */
function counted(old: Curriculum, now: Curriculum): number {
  const all = rungs(old.drills.find((drill) => drill.name === "fall")!);
  let count = 0;
  for (let i = 0; i < all.count; i++)
    if (carriedTo(now, "fall", settingsText(all.at(i).settings)) !== undefined) count += 1;
  return count;
}

describe("compareEditions()", () => {
  const ladders = ["dropout: { from: 1/2 bar, to: 2 bars, by: 1/2 bar }", "tempo: { from: 60, to: 90, by: 10 }"];

  test("keeps everything when nothing a rung is made of changes", () => {
    const extra = "    phrases: 8\n    gate: { in-a-row: 2 }\n    title: Another title\n";
    expect(change({ ladders }, { ladders, extra })).toEqual({
      drill: "fall",
      now: "fall",
      rungs: 16,
      kept: 16,
      losses: [],
      fresh: 0,
      gains: [],
      alterations: [
        {
          effect: "asked",
          aspect: "gate",
          was: { kind: "clean of last", clean: 3, of: 4 },
          is: { kind: "in a row", count: 2 },
        },
        { effect: "heard", aspect: "phrases", was: 4, is: 8 },
        { effect: "told", aspect: "title", is: "Another title" },
      ],
    });
  });
  test("keeps what a longer ladder still has, and counts what a shorter one has lost", () => {
    const longer = ["dropout: { from: 1/4 bar, to: 3 bars, by: 1/4 bar }", ladders[1]!];
    expect(change({ ladders }, { ladders: longer })).toMatchObject({ rungs: 16, kept: 16, losses: [] });
    expect(change({ ladders: longer }, { ladders })).toMatchObject({
      rungs: 48,
      kept: 16,
      losses: [{ reason: "values removed", parameter: "dropout", values: 8 }],
    });
  });
  test("keeps everything when ladders only change places", () => {
    expect(change({ ladders }, { ladders: [...ladders].reverse() })).toMatchObject({ kept: 16, losses: [] });
  });
  test("keeps nothing when a rung says one thing more or less", () => {
    const more = [...ladders, "variant: [plain, busy]"];
    expect(change({ ladders }, { ladders: [...ladders, "key: [D dorian, G dorian]"] })).toMatchObject({
      kept: 0,
      losses: [{ reason: "setting added", parameter: "key" }],
    });
    expect(change({ ladders: more }, { ladders: more.slice(1) })).toMatchObject({
      rungs: 32,
      kept: 8,
      losses: [{ reason: "values removed", parameter: "dropout", values: 3 }],
    });
  });
  test("follows a drill to its new name, and only there", () => {
    const now = edition({ ladders, name: "drop", extra: "    formerly: fall\n", edition: "2.0.0" });
    expect(compareEditions(edition({ ladders }), now)).toMatchObject({
      from: "1.0.0",
      to: "2.0.0",
      drills: [
        { drill: "hold", now: "hold", kept: 1 },
        { drill: "fall", now: "drop", kept: 16 },
      ],
      added: [],
    });
    const unnamed = edition({ ladders, name: "drop" });
    expect(compareEditions(edition({ ladders }), unnamed)).toMatchObject({
      drills: [{}, { drill: "fall", kept: 0, losses: [{ reason: "drill removed" }] }],
      added: ["drop"],
    });
  });
  test("counts 10^9 rungs as it counts ten: by their ladders", () => {
    const fine = (by: string): readonly string[] => [
      `tempo: { from: 60, to: 120, by: ${by} }`,
      "dropout: { from: 1/64 bar, to: 2 bars, by: 1/64 bar }",
    ];
    const [old, now] = [{ ladders: fine("0.00001") }, { ladders: fine("0.00003") }];
    expect(change(old, now)).toMatchObject({ rungs: 6_000_001 * 128, kept: 2_000_001 * 128 });
    // One grid is half a step beside the other.
    expect(
      change(
        { ladders: ["tempo: { from: 60, to: 120, by: 0.002 }"] },
        { ladders: ["tempo: { from: 60.001, to: 120.001, by: 0.002 }"] },
      ),
    ).toMatchObject({ kept: 0 });
  });
  test("names the first values that are gone, however late in a long ladder they are", () => {
    const long = ["tempo: { from: 60, to: 120, by: 0.00001 }"];
    const short = ["tempo: { from: 60, to: 119.99995, by: 0.00001 }"];
    expect(change({ ladders: long }, { ladders: short })).toMatchObject({
      kept: 5_999_996,
      losses: [{ values: 5, examples: ["119.99996", "119.99997", "119.99998"] }],
      gains: [],
    });
    expect(change({ ladders: short }, { ladders: long })).toMatchObject({
      losses: [],
      fresh: 5,
      gains: [{ parameter: "tempo", values: 5, examples: ["119.99996", "119.99997", "119.99998"] }],
    });
  });
  test("finds a drill again under its former name when an edition goes back behind the renaming, unless two had that place", () => {
    const [old, now] = [edition({ ladders }), edition({ ladders, name: "drop", extra: "    formerly: fall\n" })];
    expect(compareEditions(now, old)).toMatchObject({
      drills: [{}, { drill: "drop", now: "fall", kept: 16 }],
      added: [],
    });
    const rung = settingsText(rungs(old.drills[1]!).at(3).settings);
    expect(carriedTo(old, "drop", rung)).toBeUndefined();
    expect(carriedTo(old, "drop", rung, { before: now })).toMatchObject({ drill: "fall", index: 3 });
    const joined = { ...now, drills: now.drills.slice(1), formerly: { fall: "drop", hold: "drop" } };
    expect(compareEditions(joined, old).drills[0]).toMatchObject({ drill: "drop", kept: 0 });
  });
  test("counts downward ladders and ladders by per cent", () => {
    expect(
      change(
        { ladders: ["tempo: { from: 100, to: 60, by: -8 }"] },
        { ladders: ["tempo: { from: 60, to: 100, by: 4 }"] },
      ),
    ).toMatchObject({ rungs: 6, kept: 6 });
    expect(
      change({ ladders: ["tempo: { from: 100, to: 121, by: 10 % }"] }, { ladders: ["tempo: [100, 110, 121]"] }),
    ).toMatchObject({ rungs: 3, kept: 3 });
  });

  const restart = fc.constantFrom("", ", restart: 1 rung back", ", restart: 2 rungs back");
  const dropout = fc
    .tuple(fc.integer({ min: 1, max: 4 }), fc.integer({ min: 1, max: 3 }), fc.integer({ min: 2, max: 4 }))
    .map(([from, by, steps]) => `dropout: { from: ${from}/8 bar, to: ${from + by * steps}/8 bar, by: ${by}/8 bar }`);
  const tempo = fc.oneof(
    fc
      .tuple(fc.integer({ min: 30, max: 34 }), fc.integer({ min: 1, max: 4 }), fc.integer({ min: 2, max: 5 }))
      .map(([from, by, steps]) => `tempo: { from: ${2 * from}, to: ${2 * (from + by * steps)}, by: ${2 * by} }`),
    fc
      .uniqueArray(fc.constantFrom(60, 62, 64, 66, 68, 70, 72, 74), { minLength: 3, maxLength: 5 })
      .map((list) => `tempo: [${list.join(", ")}]`),
    fc.constantFrom("tempo: { from: 64, to: 70, by: 3 % }", "tempo: { from: 60, to: 70, by: 5 % }"),
  );
  const variant = fc.constantFrom("variant: [plain, busy]", "variant: [busy, plain]");
  const writing = fc
    .tuple(
      fc.tuple(dropout, restart),
      fc.tuple(tempo, fc.constantFrom("", ", restart: 1 rung back")),
      variant,
      fc.nat(5),
    )
    .map(([[d, dr], [t, tr], v, order]): Writing => {
      const all = [d + dr, t + tr, v];
      const first = order % 3;
      const rest = all.filter((_, i) => i !== first);
      return { ladders: [all[first]!, ...(order > 2 ? rest.reverse() : rest)] };
    });

  test("says how many rungs are kept as asking for each rung does, whatever the ladders and where they restart", () => {
    fc.assert(
      fc.property(writing, writing, (before, after) => {
        const [old, now] = [edition(before), edition(after)];
        const { rungs: all, kept, losses, fresh, gains } = compareEditions(old, now).drills[1]!;
        expect(kept).toBe(counted(old, now));
        expect(losses.length === 0).toBe(kept === all);
        expect(fresh).toBe(compareEditions(now, old).drills[1]!.rungs - kept);
        const values = (course: Curriculum, parameter: string): readonly string[] =>
          valuesOf(course.drills[1]!.ladders.find((ladder) => ladder.parameter === parameter)!);
        for (const { parameter, values: count, examples } of gains) {
          const missing = values(now, parameter).filter((value) => !values(old, parameter).includes(value));
          expect({ count, examples }).toEqual({ count: missing.length, examples: missing.slice(0, 3) });
        }
        for (const { reason, parameter, values: count, examples } of losses) {
          if (reason !== "values removed") continue;
          const missing = values(old, parameter!).filter((value) => !values(now, parameter!).includes(value));
          expect({ count, examples }).toEqual({ count: missing.length, examples: missing.slice(0, 3) });
        }
      }),
      { numRuns: 60 },
    );
  });
});

describe("carriedTo()", () => {
  const now = edition({
    ladders: ["tempo: { from: 60, to: 90, by: 10 }"],
    name: "drop",
    extra: "    formerly: [fall]\n",
  });
  test("finds the rung by its settings, under the present name", () => {
    expect(carriedTo(now, "fall", "dropout=1 bar,parts=bass+kit,tempo=80,variant=plain")).toMatchObject({
      drill: "drop",
      index: 2,
    });
  });
  test.each(["dropout=1 bar,tempo=81,variant=plain", "tempo=80", "", "no settings", "constructor=1"])(
    "gives nothing for %j",
    (settings) => {
      expect(carriedTo(now, "fall", settings)).toBeUndefined();
    },
  );
  test.each(["gone", "constructor", "__proto__", ""])("gives nothing for the drill %j", (drill) => {
    expect(carriedTo(now, drill, "dropout=1 bar,tempo=80,variant=plain")).toBeUndefined();
  });
});
