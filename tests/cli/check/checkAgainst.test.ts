import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest";
import type { DrillEffect } from "../../../lib/progress/index.js";
import type { Score } from "../../../lib/schema/index.js";
import { ROOT } from "../../sources.js";
import { type Said, saidBy } from "../said.js";

const COURSE = join(ROOT, "tests", "cli", "quay.yaml");

let folder: string;
let store: string;
let count = 0;
const environment = { ...process.env };
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "leeway-against-"));
  // The store of whoever runs the tests is none of their business.
  process.env.LEEWAY_STORE = join(folder, "no-store.sqlite");
});
afterAll(() => {
  process.env = environment;
  rmSync(folder, { force: true, recursive: true });
});
beforeEach(() => {
  store = join(folder, `${count++}.sqlite`);
});

const run = (words: readonly string[]): Promise<Said> => saidBy(words);
const onStore = (words: readonly string[]): Promise<Said> => run([...words, "--store", store]);

/** The course with changes, as a file. */
function changed(name: string, ...changes: readonly (readonly [from: string, to: string])[]): string {
  let text = readFileSync(COURSE, "utf8");
  for (const [from, to] of changes) {
    expect(text).toContain(from);
    text = text.replace(from, to);
  }
  writeFileSync(join(folder, name), text);
  return join(folder, name);
}
const RAISED = ["edition: 1.0.0", "edition: 1.1.0"] as const;
const TEMPI = ["tempo: { from: 84, to: 112, by: 4 }", "tempo: { from: 84, to: 108, by: 8 }"] as const;

async function exactTake(id: string, drill: string, rung: string): Promise<string> {
  const { out } = await run(["score", COURSE, drill, rung, "--json"]);
  const onsets = (JSON.parse(out) as Score).expected.map((onset) => onset.at);
  const path = join(folder, `${id}.json`);
  writeFileSync(path, JSON.stringify({ id, zero: "bar-1", onsets }));
  return path;
}

/** tern is in half-bar with a take on tempo 88; gull has just begun. */
async function school(): Promise<void> {
  await onStore(["enrol", COURSE, "tern", "gull"]);
  await onStore(["submit", "tern", await exactTake("a", "steady", "1"), await exactTake("b", "steady", "1")]);
  const place = ["submit", "tern", "--drill", "half-bar"];
  for (const [i, rung] of ["1", "1", "1", "2", "2", "2", "3", "3", "3", "4", "4", "4", "5"].entries())
    await onStore([...place, await exactTake(`h${i}`, "half-bar", rung), "--rung", rung]);
}

describe("leeway check --against", () => {
  test("says what keeps and loses credit, what else is otherwise, and who is affected; nothing is written", async () => {
    await school();
    const before = await onStore(["journal", "export"]);
    const now = changed("now.yaml", RAISED, TEMPI, ["drift: 2.5 %", "drift: 3 %"], ["G4 F4 E4 D4", "G4 F4 E4 C4"]);
    const said = await onStore(["check", now, "--against", COURSE]);
    expect(said).toMatchObject({ status: 0, err: "" });
    expect(said.out).toContain("CREDIT_LOST  advice: credit is lost in half-bar (16 of 32 rungs)");
    expect(said.out).toContain(`quay-test, edition 1.0.0 -> 1.1.0
  steady: 1 rung keeps credit
    music changed   notes of lead: others in bar 4
  half-bar: 16 of 32 rungs keep credit, 16 lose it
    lost            tempo 88, 96, 104 and 1 more are gone
    limits changed  tolerance: drift 2.5 %, landing 40 ms -> drift 3 %, landing 40 ms
    music changed   notes of lead: others in bar 4
    text changed    ladders: silence 1/2 bar to 2 bars in 4, tempo 84 to 112 in 8 -> silence 1/2 bar to 2 bars in 4, tempo 84 to 108 in 4
`);
    expect(said.out).toContain(`students in the store: 2 of this course, 1 affected
  tern, in 1.0.0
    half-bar: moves from silence 1/2 bar, silent parts kit, tempo 88 to silence 2 bars, silent parts kit, tempo 84; 1 take not counted here any more
  everything stays for: gull
`);
    expect((await onStore(["journal", "export"])).out).toBe(before.out);
    // And so it comes.
    const enrolled = await onStore(["enrol", now, "tern"]);
    expect(enrolled.out).toContain(
      "    half-bar: moves from silence 1/2 bar, silent parts kit, tempo 88 to silence 2 bars, silent parts kit, tempo 84;",
    );
    const back = await onStore(["check", COURSE, "--against"]);
    expect(back.out).toContain("EDITION_LOWERED");
    expect(back.out).toContain(
      "half-bar: goes back from silence 2 bars, silent parts kit, tempo 84 to silence 1/2 bar",
    );
    expect(back.out).toContain("1 take counted again");
  });

  test("compares with the editions students are in when no file is named", async () => {
    await school();
    const now = changed("now.yaml", RAISED, TEMPI);
    const named = JSON.parse((await onStore(["check", now, "--against", COURSE, "--json"])).out) as Record<
      string,
      unknown
    >;
    const kept = JSON.parse((await onStore(["check", now, "--against", "--json"])).out) as Record<string, unknown>;
    expect(kept).toEqual(named);
    expect(kept).toMatchObject({
      ok: true,
      curriculum: "quay-test",
      problems: [{ code: "CREDIT_LOST", severity: "advice" }],
      comparisons: [
        { from: "1.0.0", to: "1.1.0", drills: [{ kept: 1 }, { rungs: 32, kept: 16, fresh: 0 }], isChanged: true },
      ],
      students: [
        { student: "gull", isAffected: false },
        { student: "tern", isAffected: true, events: [{ kind: "edition changed" }] },
      ],
    });
    const [, tern] = kept.students as { drills: DrillEffect[] }[];
    expect(tern!.drills.map(({ drill, outcome }) => [drill, outcome])).toEqual([
      ["steady", "stays"],
      ["half-bar", "moves"],
    ]);
    expect((await onStore(["enrol", now, "tern"])).status).toBe(0);
    const both = JSON.parse(
      (await onStore(["check", changed("next.yaml", ["1.0.0", "1.2.0"]), "--against", "--json"])).out,
    );
    expect(both.comparisons.map(({ from }: { from: string }) => from)).toEqual(["1.0.0", "1.1.0"]);
  });

  test("compares two files alone when there is no store", async () => {
    const said = await run(["check", changed("now.yaml", RAISED, TEMPI), "--against", COURSE, "--json"]);
    expect(said.status).toBe(0);
    expect(JSON.parse(said.out)).not.toHaveProperty("students");
    const same = await run(["check", COURSE, "--against", COURSE]);
    expect(same.out).toContain("quay-test, edition 1.0.0 -> 1.0.0: nothing is changed\n");
  });

  test("says when the number was not raised, and does not call that an error", async () => {
    const said = await run(["check", changed("same.yaml", ["title: Steady", "title: Calm"]), "--against", COURSE]);
    expect(said.status).toBe(0);
    expect(said.out).toContain("EDITION_NOT_RAISED  advice");
    expect(said.out).toContain('    text changed    title: "Steady" -> "Calm"\n');
  });

  test("counts a drill of 10^9 rungs and lists none of them", async () => {
    const wide = (by: string): readonly [string, string] => [
      TEMPI[0],
      `tempo: { from: 84, to: 112, by: ${by} }\n      - key: [D dorian, E dorian, F dorian, G dorian, A dorian, B dorian, C dorian, Db dorian, Eb dorian]`,
    ];
    const old = changed("wide.yaml", wide("0.000001"));
    const now = changed("wider.yaml", RAISED, wide("0.000002"));
    const { out, status } = await run(["check", now, "--against", old]);
    expect(status).toBe(0);
    expect(out).toContain("half-bar: 504,000,036 of 1,008,000,036 rungs keep credit, 504,000,000 lose it");
    expect(out).toContain("lost            tempo 84.000001, 84.000003, 84.000005 and 13,999,997 more are gone");
    expect(out.length).toBeLessThan(2000);
  });

  test("says which drills are gone, renamed, new and joined", async () => {
    const renamed = changed("renamed.yaml", RAISED, ["  half-bar:", "  first-silence:\n    formerly: half-bar"]);
    expect((await run(["check", renamed, "--against", COURSE])).out).toContain(
      "  half-bar, now first-silence: 32 rungs keep credit\n  unchanged: steady\n",
    );
    const gone = changed("gone.yaml", RAISED, ["  half-bar:", "  first-silence:"]);
    const { out } = await run(["check", gone, "--against", COURSE]);
    expect(out).toContain("  half-bar: 0 of 32 rungs keep credit, 32 lose it\n    lost            the drill is gone\n");
    expect(out).toContain("  first-silence: a new drill\n");
    const text = readFileSync(renamed, "utf8").replace("formerly: half-bar", "formerly: [half-bar, steady]");
    writeFileSync(
      renamed,
      text.replace(/ {2}steady:[\s\S]*? {2}first-silence:/, "  first-silence:").replace("needs: [steady]", "needs: []"),
    );
    expect((await run(["check", renamed, "--against", COURSE])).out).toContain("DRILLS_JOINED  advice");
  });

  test.each([
    [
      "two courses",
      () => [changed("other.yaml", ["quay-test", "harbour-test"]), "--against", COURSE],
      1,
      "EDITIONS_OF_TWO_COURSES",
    ],
    ["an old file that is not there", () => [COURSE, "--against", "gone.yaml"], 1, "INPUT_NOT_FOUND"],
    [
      "a new file with problems",
      () => [changed("bad.yaml", ["meter: 4/4", "meter: 4/5"]), "--against", COURSE],
      1,
      "METER_LOWER_NOT_POWER_OF_TWO",
    ],
    ["a store that is not there", () => [COURSE, "--against", COURSE, "--store", "none.sqlite"], 1, "STORE_NOT_FOUND"],
    ["several new files", () => [COURSE, COURSE, "--against", COURSE], 2, ""],
  ])("answers %s with what is wrong", async (_what, words, status, code) => {
    const said = await run(["check", ...words(), "--json"]);
    expect(said.status).toBe(status);
    expect(said.out).toContain(code);
  });

  test("says when there is nobody to compare with", async () => {
    await onStore(["enrol", changed("other.yaml", ["quay-test", "harbour-test"]), "tern"]);
    expect((await onStore(["check", COURSE, "--against"])).err).toContain("NOTHING_TO_COMPARE");
  });
});

describe("leeway submit", () => {
  test("says beside the takes what a new edition of the course did", async () => {
    await school();
    const now = changed("now.yaml", RAISED, TEMPI);
    const said = await onStore([
      "submit",
      "tern",
      await exactTake("z", "half-bar", "4"),
      "--course",
      now,
      "--drill",
      "half-bar",
    ]);
    expect(said.err).toContain("tern  edition changed from 1.0.0 to 1.1.0\n    half-bar: moves from");
  });
});
