import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { CAUTIONS } from "../../../lib/base/index.js";
import { usualStore } from "../../../lib/cli/store/openStore.js";
import { fold, readJournal } from "../../../lib/progress/index.js";
import type { Score } from "../../../lib/schema/index.js";
import { ROOT } from "../../sources.js";
import { writeStore } from "../../store/version1/fixture.js";
import { type Said, saidBy } from "../said.js";

const COURSE = join(ROOT, "tests", "cli", "quay.yaml");

let folder: string;
let store: string;
let count = 0;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "leeway-cli-store-"));
});
afterAll(() => rmSync(folder, { force: true, recursive: true }));
beforeEach(() => {
  store = join(folder, `${count++}.sqlite`);
});

const run = (words: readonly string[], input = ""): Promise<Said> => saidBy(words, { input });
const onStore = (words: readonly string[], input?: string): Promise<Said> => run([...words, "--store", store], input);
const lines = (text: string): readonly unknown[] =>
  text
    .trimEnd()
    .split("\n")
    .map((line) => JSON.parse(line) as unknown);

async function exactTake(id: string, drill: string, rung: string): Promise<string> {
  const { out } = await run(["score", COURSE, drill, rung, "--json"]);
  const onsets = (JSON.parse(out) as Score).expected.map((onset) => onset.at);
  const path = join(folder, `${id}.json`);
  writeFileSync(path, JSON.stringify({ id, zero: "bar-1", onsets }));
  return path;
}

const file = (name: string, text: string): string => {
  writeFileSync(join(folder, name), text);
  return join(folder, name);
};

describe("leeway enrol", () => {
  test("begins a course for each student, once, and says what comes next", async () => {
    const first = await onStore(["enrol", COURSE, "tern", "gull"]);
    expect(first).toMatchObject({ status: 0, err: `${CAUTIONS.join("\n")}\n` });
    expect(first.out).toMatch(/^tern {2}enrolled in quay-test 1\.0\.0\n {2}next: steady at .*tempo 96/);
    const again = await onStore(["enrol", COURSE, "tern", "--json"]);
    expect(lines(again.out)).toMatchObject([{ student: "tern", outcome: "enrolled already", events: [] }]);
    expect(lines((await onStore(["standing", "--json"])).out)).toMatchObject([
      { student: "gull" },
      { student: "tern" },
    ]);
  });

  test("takes students over to a new edition of the course", async () => {
    await onStore(["enrol", COURSE, "tern"]);
    const next = file("next.yaml", readFileSync(COURSE, "utf8").replace("edition: 1.0.0", "edition: 1.1.0"));
    const said = await onStore(["enrol", next, "tern"]);
    expect(said.out).toMatch(/^tern {2}edition changed from 1\.0\.0 to 1\.1\.0 in quay-test 1\.1\.0\n/);
    expect(lines((await onStore(["standing", "tern", "--json"])).out)).toMatchObject([{ edition: "1.1.0" }]);
  });

  test("tells when a course was changed and its number was not", async () => {
    await onStore(["enrol", COURSE, "tern"]);
    const changed = file(
      "changed.yaml",
      readFileSync(COURSE, "utf8").replace("title: Quay test", "title: Quayside test"),
    );
    const said = await onStore(["enrol", changed, "gull"]);
    expect(said.status).toBe(0);
    expect(said.err).toContain("COURSE_TEXT_REPLACED");
  });

  test("refuses a course with problems and a name nobody can have, and makes no store then", async () => {
    const broken = file("broken.yaml", "curriculum: quay\n");
    expect((await onStore(["enrol", broken, "tern"])).status).toBe(1);
    const said = await onStore(["enrol", COURSE, "", "x".repeat(201), "--json"]);
    expect(JSON.parse(said.out)).toMatchObject({
      problems: [{ code: "STUDENT_NAME_LENGTH" }, { code: "STUDENT_NAME_LENGTH" }],
    });
    expect(existsSync(store)).toBe(false);
  });
});

describe("leeway submit", () => {
  test("assesses at the student's rung, keeps what was shown and says what comes next, without the course's file", async () => {
    await onStore(["enrol", COURSE, "tern"]);
    const first = await onStore(["submit", "tern", await exactTake("a", "steady", "1")]);
    expect(first).toMatchObject({ status: 0, err: expect.stringContaining("protect your hearing") });
    expect(first.out).toMatch(/^a {2}within/);
    expect(first.out).toContain("hold: This take was clean. You need 2 clean takes in a row; you have 1.");
    const second = await onStore(["submit", "tern", await exactTake("b", "steady", "1"), "--json"]);
    expect(lines(second.out)).toMatchObject([
      {
        take: "b",
        finding: { verdict: "within", drill: "steady" },
        decision: { what: "complete", opened: ["half-bar"] },
      },
    ]);
    const standing = await onStore(["standing", "tern"]);
    expect(standing.out).toMatch(
      /steady: complete\n {2}half-bar: open\n {4}at silence 1\/2 bar, .*\n {4}no takes here yet\n/,
    );
  });

  test("counts a take once, however often it is submitted, and for the rung it was played to", async () => {
    await onStore(["enrol", COURSE, "tern"]);
    const takes = [await exactTake("a", "steady", "1"), await exactTake("b", "steady", "1")];
    await onStore(["submit", "tern", ...takes]);
    const again = await onStore(["submit", "tern", ...takes, "--json"]);
    expect(lines(again.out)).toMatchObject([
      { take: "a", known: true, finding: { drill: "steady" }, decision: { what: "hold" } },
      { take: "b", known: true, finding: { drill: "steady" }, decision: { what: "complete", opened: ["half-bar"] } },
    ]);
    const exported = await onStore(["journal", "export"]);
    expect(lines(exported.out).filter((event) => (event as { kind: string }).kind === "take assessed")).toHaveLength(2);
  });

  test("goes on in the student's edition when it is given the file of an earlier one, and says so", async () => {
    const next = file("later.yaml", readFileSync(COURSE, "utf8").replace("edition: 1.0.0", "edition: 1.1.0"));
    await onStore(["enrol", next, "tern"]);
    const said = await onStore(["submit", "tern", await exactTake("a", "steady", "1"), "--course", COURSE]);
    expect(said.status).toBe(0);
    expect(said.err).toMatch(
      /^tern {2}stays in edition 1\.1\.0; the course given is the earlier edition 1\.0\.0, .*leeway enrol/,
    );
    expect(lines((await onStore(["standing", "tern", "--json"])).out)).toMatchObject([{ edition: "1.1.0" }]);
    expect((await onStore(["enrol", COURSE, "tern"])).out).toContain("edition changed from 1.1.0 to 1.0.0");
  });

  test("goes on after a take with problems, and says so in its place", async () => {
    await onStore(["enrol", COURSE, "tern"]);
    const said = await onStore(["submit", "tern", "missing.mid", await exactTake("a", "steady", "1"), "--json"]);
    expect(said.status).toBe(1);
    expect(lines(said.out)).toMatchObject([{ problems: [{ code: "INPUT_NOT_FOUND" }] }, { take: "a" }]);
  });

  test("says which drill, rung, mix, course or student it does not know", async () => {
    await onStore(["enrol", COURSE, "tern"]);
    const take = await exactTake("a", "steady", "1");
    const code = async (words: readonly string[]): Promise<string> => {
      const { status, out } = await onStore(["submit", ...words, take, "--json"]);
      expect(status).toBe(1);
      return (lines(out)[0] as { problems: { code: string }[] }).problems[0]!.code;
    };
    expect(await code(["trn"])).toBe("STUDENT_UNKNOWN");
    expect(await code(["tern", "--drill", "steadi"])).toBe("DRILL_UNKNOWN");
    expect(await code(["tern", "--rung", "77"])).toBe("RUNG_NUMBER_OUT_OF_RANGE");
    expect(await code(["tern", "--mix", "solo"])).toBe("MIX_UNKNOWN");
    expect(await code(["tern", "--course", "harbour"])).toBe("NOT_ENROLLED_IN_COURSE");
  });

  test("asks for the drill when several are open, and for the course when the student is in several", async () => {
    const text = readFileSync(COURSE, "utf8").replace("needs: [steady]", "needs: []");
    const both = file("both.yaml", text);
    await onStore(["enrol", both, "tern"]);
    const take = await exactTake("a", "steady", "1");
    expect((await onStore(["submit", "tern", take])).err).toContain("DRILL_NOT_CHOSEN");
    expect((await onStore(["submit", "tern", take, "--drill", "steady"])).status).toBe(0);
    await onStore(["enrol", file("other.yaml", text.replace("quay-test", "harbour-test")), "tern"]);
    expect((await onStore(["submit", "tern", take, "--drill", "steady"])).err).toContain("COURSE_NOT_CHOSEN");
    const chosen = ["submit", "tern", take, "--drill", "steady", "--course", "harbour-test"];
    expect((await onStore(chosen)).status).toBe(0);
  });

  test("needs the course's file when the store has only the journal, and keeps it then", async () => {
    await onStore(["enrol", COURSE, "tern"]);
    const { out } = await onStore(["journal", "export"]);
    store = join(folder, `${count++}.sqlite`);
    await onStore(["journal", "import", "-"], out);
    const take = await exactTake("a", "steady", "1");
    expect((await onStore(["submit", "tern", take])).err).toContain("COURSE_NOT_KEPT");
    expect((await onStore(["submit", "tern", take, "--course", COURSE])).status).toBe(0);
    expect((await onStore(["submit", "tern", take])).status).toBe(0);
  });
});

describe("leeway journal", () => {
  test("exports what it imports, as a journal that folds to the same standing", async () => {
    await onStore(["enrol", COURSE, "tern", "gull"]);
    await onStore(["submit", "tern", await exactTake("a", "steady", "1"), await exactTake("b", "steady", "1")]);
    const out = join(folder, "term.jsonl");
    expect(await onStore(["journal", "export", "--out", out])).toMatchObject({ status: 0, out: "", err: "" });
    const text = readFileSync(out, "utf8");
    expect((await onStore(["journal", "export"])).out).toBe(text);
    expect(readdirSync(folder).filter((name) => name.endsWith(".part"))).toEqual([]);
    const tern = (await onStore(["journal", "export", "tern"])).out;
    const standing = (await onStore(["standing", "tern", "--json"])).out;
    expect(fold(readJournal(tern).events).standing).toEqual(JSON.parse(standing));
    store = join(folder, `${count++}.sqlite`);
    const imported = await onStore(["journal", "import", file("mixed.jsonl", `${text}{"cut\n`)]);
    expect(imported).toMatchObject({ status: 1, err: expect.stringContaining("JOURNAL_LINE_NOT_JSON") });
    expect(imported.out).toContain("events added, 0 known, 1 refused; 2 journals");
    expect((await onStore(["journal", "export"])).out).toBe(text);
    expect((await onStore(["standing", "tern", "--json"])).out).toBe(standing);
  });

  test("verifies, and erases only when told that it is meant", async () => {
    await onStore(["enrol", COURSE, "oystercatcher", "gull"]);
    expect((await onStore(["journal", "verify"])).out).toMatch(/2 journals, 4 events: all is well\n$/);
    const asked = await onStore(["journal", "erase", "oystercatcher"]);
    expect(asked.status).toBe(2);
    expect(asked.err).toContain("--yes");
    const erased = await onStore(["journal", "erase", "oystercatcher", "--yes", "--json"]);
    expect(JSON.parse(erased.out)).toMatchObject({ student: "oystercatcher", journals: 1, events: 2 });
    expect(readFileSync(store).includes("oystercatcher")).toBe(false);
    expect(JSON.parse((await onStore(["journal", "verify", "--repair", "--json"])).out)).toMatchObject({
      journals: 1,
      repaired: 0,
      problems: [],
    });
  });

  test("says where it cannot write", async () => {
    await onStore(["enrol", COURSE, "tern"]);
    const said = await onStore(["journal", "export", "--out", join(folder, "no", "such.jsonl")]);
    expect(said).toMatchObject({ status: 1, err: expect.stringContaining("OUTPUT_UNWRITABLE") });
  });
});

describe("--store", () => {
  test.each([
    ["a store that is not there", () => store, "STORE_NOT_FOUND"],
    ["an address of another kind", () => "mysql://localhost/school", "STORE_ADDRESS_UNKNOWN"],
    ["a file that is no store", () => COURSE, "STORE_FOREIGN"],
    ["a folder", () => folder, "STORE_PLACE_UNUSABLE"],
  ])("says what is wrong with %s", async (_what, place, code) => {
    const said = await run(["standing", "--store", place(), "--json"]);
    expect(said.status).toBe(1);
    expect(JSON.parse(said.out)).toMatchObject({ problems: [{ code }] });
  });

  test.each([
    [["enrol", COURSE]],
    [["submit", "tern"]],
    [["journal"]],
    [["journal", "burn"]],
    [["journal", "import"]],
    [["enrol", COURSE, "tern", "--at", "yesterday"]],
  ])("calls %j misuse", async (words) => {
    expect((await run(words)).status).toBe(2);
  });

  test("is a file in the user's folder for data when nothing is said", () => {
    expect(usualStore({ HOME: "/home/tern" }, "linux")).toBe("/home/tern/.local/share/leeway/journals.sqlite");
    expect(usualStore({ HOME: "/home/tern", XDG_DATA_HOME: "/data" }, "linux")).toBe("/data/leeway/journals.sqlite");
    expect(usualStore({ HOME: "/Users/tern" }, "darwin")).toBe(
      "/Users/tern/Library/Application Support/leeway/journals.sqlite",
    );
    expect(usualStore({ LEEWAY_STORE: "postgresql://school/leeway" }, "linux")).toBe("postgresql://school/leeway");
  });

  test("makes the user's folder for data when it is used first", async () => {
    const home = join(folder, "home");
    mkdirSync(home);
    const before = { ...process.env };
    Object.assign(process.env, { XDG_DATA_HOME: home, LEEWAY_STORE: "" });
    try {
      expect((await run(["enrol", COURSE, "tern"])).status).toBe(0);
      expect(existsSync(join(home, "leeway", "journals.sqlite"))).toBe(true);
    } finally {
      process.env = before;
    }
  });
});

describe("a store that was written with former words", () => {
  test("goes on with the edition it keeps, in whatever spelling that is", async () => {
    writeStore(store);
    const refused = await onStore(["journal", "verify"]);
    expect(refused.status).toBe(1);
    expect(refused.err).toMatch(/STORE_VERSION_OLDER[\s\S]*leeway store migrate/);
    expect((await onStore(["store", "migrate"])).out).toContain("brought up to date");
    expect(JSON.parse((await onStore(["store", "migrate", "--json"])).out)).toMatchObject({ migrated: false });
    expect((await onStore(["journal", "verify"])).out).toContain("3 journals, 34 events: all is well");
    expect((await onStore(["standing", "tern"])).out).toContain("(gone back)");
    const onsets = Array.from({ length: 29 }, (_, i) => 0.5 * i);
    const take = file("t13.json", JSON.stringify({ id: "t13", zero: "bar-1", onsets }));
    const said = await onStore(["submit", "tern", take]);
    expect(said.status).toBe(0);
    // The cautions stand there, and no problem.
    expect(said.err).not.toMatch(/[A-Z]+_[A-Z]+/);
    expect(said.out).toContain("t13");
    expect((await onStore(["journal", "verify"])).out).toContain("all is well");
  });
});
