import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  type Curriculum,
  carriedTo,
  compareEditionNumbers,
  compareEditions,
  editionProblems,
} from "../../lib/curriculum/index.js";
import { type Ladder, ladderValue, rungs, settingsText } from "../../lib/drill/index.js";
import { courseFrom, courseText, HOLD } from "./courses.js";

interface Writing {
  readonly ladders?: readonly string[];
  readonly extra?: string;
  readonly name?: string;
  readonly edition?: string;
}

/** A course of one drill with silences, over what its ladders say. */
function edition({ ladders = [], extra = "", name = "fall", edition = "1.0.0" }: Writing): Curriculum {
  const climbs = (parameter: string): boolean => ladders.some((ladder) => ladder.includes(`${parameter}:`));
  const drill = `  ${name}:
    pattern: riff
    student: lead
    dropout: { parts: [kit, bass]${climbs("dropout") ? "" : ", length: 1 bar"} }
${climbs("tempo") ? "" : "    tempo: 90\n"}${climbs("variant") ? "" : "    variant: plain\n"}    tolerance: { drift: 30 % }
    ladders: [${ladders.map((ladder) => `{ ${ladder} }`).join(", ")}]
${extra}`;
  return courseFrom(courseText({ drills: HOLD + drill }).replace("edition: 1.0.0", `edition: ${edition}`));
}

const change = (old: Writing, now: Writing) =>
  compareEditions(edition(old), edition(now)).drills.find((each) => each.drill === (old.name ?? "fall"))!;

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

describe("alterations", () => {
  const ladders = ["tempo: { from: 60, to: 90, by: 10 }"];
  const before = courseFrom(courseText({ drills: HOLD }));
  const found = (from: string | RegExp, to: string): unknown => {
    const text = courseText({ drills: HOLD });
    const changed = text.replace(from, to);
    expect(changed).not.toBe(text);
    const [hold] = compareEditions(before, courseFrom(changed)).drills;
    expect(hold).toMatchObject({ kept: 1, losses: [], fresh: 0 });
    return hold!.alterations;
  };

  test("are none when only the number of the edition is another", () => {
    const { drills, isChanged } = compareEditions(before, { ...before, edition: "1.0.1" });
    expect({ altered: drills.flatMap(({ alterations }) => alterations), isChanged }).toEqual({
      altered: [],
      isChanged: false,
    });
  });
  test("are what is asked: tolerance, gate, easing", () => {
    expect(found("steadiness: 40 ms", "steadiness: 30 ms")).toEqual([
      { effect: "asked", aspect: "tolerance", was: { steadiness: 40 }, is: { steadiness: 30 } },
    ]);
    expect(found("    variant: plain\n", "    variant: plain\n    gate: { clean: 2, of: 3 }\n")).toMatchObject([
      { effect: "asked", aspect: "gate", is: { clean: 2, of: 3 } },
    ]);
    expect(found("    variant: plain\n", "    variant: plain\n    ease: { after: 2 }\n")).toMatchObject([
      { effect: "asked", aspect: "ease", is: { after: 2, by: 1 } },
    ]);
  });
  test("are what is heard: the very bars in which a line has other notes, the meter, the key, the parts, the mixes", () => {
    expect(
      found(
        "plain: { notes: D4/4 E4/4 F4/4 G4/4 | % | % | % }",
        "plain: { notes: D4/4 E4/4 F4/4 G4/4 | % | D4/4 E4/4 F4/4 A4/4 | D4/4 E4/4 F4/4 G4/4 }",
      ),
    ).toEqual([{ effect: "heard", aspect: "notes", part: "lead", variant: "plain", bars: [3] }]);
    expect(found("bass: { notes: D2/1 | G2/1 | D2/1 | A2/1 }", "bass: { notes: D2/1 | G2/1 | D2/1 | C3/1 }")).toEqual([
      { effect: "heard", aspect: "notes", part: "bass", bars: [4] },
    ]);
    expect(found("key: D dorian", "key: D minor")).toMatchObject([{ effect: "heard", aspect: "key" }]);
    expect(found("    key: D dorian\n", '    key: D dorian\n    swing: "2:1 1/8 note"\n')).toMatchObject([
      { effect: "heard", aspect: "swing" },
    ]);
    expect(found("      kit:", "      drum: { voices: { hat: xxxx | % | % | % } }\n      kit:")).toMatchObject([
      { effect: "heard", aspect: "parts", was: ["bass", "kit", "lead"], is: ["bass", "drum", "kit", "lead"] },
    ]);
    expect(found("    variant: plain\n", "    variant: plain\n    mixes: { solo: { kit: off } }\n")).toMatchObject([
      { effect: "heard", aspect: "mixes" },
    ]);
  });
  test("are what is told: titles, chord symbols, the order of rungs", () => {
    expect(found("    key: D dorian\n", "    key: D dorian\n    chords: Dm7 | G7 | Dm7 | A7\n")).toMatchObject([
      { effect: "told", aspect: "chords" },
    ]);
    const down = ["tempo: { from: 90, to: 60, by: -10 }"];
    expect(change({ ladders }, { ladders: down })).toMatchObject({
      kept: 4,
      fresh: 0,
      alterations: [{ effect: "told", aspect: "ladders" }],
    });
  });
  test("are not needs that only have another name", () => {
    const needs = (name: string): string => `    needs: [${name}]\n`;
    const old = edition({ ladders, extra: needs("hold") });
    const renamed = courseText({ drills: "" }).concat(
      HOLD.replace("hold:", "keep:").concat("    formerly: hold\n"),
      `  fall:\n    pattern: riff\n    student: lead\n    dropout: { parts: [kit, bass], length: 1 bar }\n    variant: plain\n`,
      `    tolerance: { drift: 30 % }\n    ladders: [{ ${ladders[0]} }]\n${needs("keep")}`,
    );
    expect(compareEditions(old, courseFrom(renamed)).drills).toMatchObject([
      { drill: "hold", now: "keep", alterations: [] },
      { drill: "fall", now: "fall", alterations: [] },
    ]);
  });
});

describe("editionProblems()", () => {
  const ladders = ["tempo: { from: 60, to: 90, by: 10 }"];
  const codes = (old: Curriculum, now: Curriculum): readonly string[] =>
    editionProblems(old, now).map(({ code, severity }) => `${code} ${severity}`);
  const [old, raised] = [edition({ ladders }), edition({ ladders, edition: "1.1.0" })];

  test("has nothing to say when a raised number comes with a change that loses nothing, or with none", () => {
    expect(codes(old, raised)).toEqual([]);
    expect(codes(old, edition({ ladders, edition: "1.1.0", extra: "    gate: { clean: 2, of: 2 }\n" }))).toEqual([]);
    expect(codes(old, old)).toEqual([]);
  });
  test("says when the number does not fit the change: the same with something changed, or a lower one", () => {
    expect(codes(old, edition({ ladders, extra: "    title: Falling\n" }))).toEqual(["EDITION_NOT_RAISED advice"]);
    expect(codes(raised, old)).toEqual(["EDITION_LOWERED advice"]);
    expect(codes(old, edition({ ladders, edition: "1.0.0-rc.1" }))).toEqual(["EDITION_LOWERED advice"]);
  });
  test("says where credit is lost, and how much of it", () => {
    const shorter = edition({ ladders: ["tempo: { from: 60, to: 80, by: 10 }"], edition: "2.0.0" });
    expect(editionProblems(old, shorter)).toMatchObject([
      { code: "CREDIT_LOST", message: "credit is lost in fall (1 of 4 rungs)" },
    ]);
  });
  test("says when two drills go on as one", () => {
    const joined = { ...raised, drills: raised.drills.slice(1), formerly: { hold: "fall" } };
    expect(codes(old, joined)).toEqual(["CREDIT_LOST advice", "DRILLS_JOINED advice"]);
  });
  test("refuses to compare two courses", () => {
    expect(codes(old, { ...raised, name: "harbour-test" })).toEqual(["EDITIONS_OF_TWO_COURSES error"]);
  });
});

describe("compareEditionNumbers()", () => {
  // Semantic Versioning 2.0.0, section 11, its own rows (from memory, and the same in the project's collection of reference values).
  const ascending = [
    "1.0.0-alpha",
    "1.0.0-alpha.1",
    "1.0.0-alpha.beta",
    "1.0.0-beta",
    "1.0.0-beta.2",
    "1.0.0-beta.11",
    "1.0.0-rc.1",
    "1.0.0",
    "2.0.0",
    "2.1.0",
    "2.1.1",
  ];
  test("puts the rows of the standard in their order", () => {
    for (const [i, a] of ascending.entries())
      for (const [k, b] of ascending.entries())
        expect(Math.sign(compareEditionNumbers(a, b)), `${a}, ${b}`).toBe(Math.sign(i - k));
  });
  test("does not compare build metadata, and counts digits rather than letters", () => {
    expect(compareEditionNumbers("1.0.0+a", "1.0.0+b")).toBe(0);
    expect(compareEditionNumbers("1.9.0", "1.10.0")).toBeLessThan(0);
    expect(compareEditionNumbers("1.0.0-9", "1.0.0-10")).toBeLessThan(0);
    expect(compareEditionNumbers("1.0.0-9", "1.0.0-a")).toBeLessThan(0);
  });
});
