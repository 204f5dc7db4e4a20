import { existsSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { XmlDocument } from "libxml2-wasm";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { Report, Score } from "../../../lib/schema/index.js";
import { checkReport } from "../../../lib/schema/index.js";
import { ROOT } from "../../sources.js";
import { type Said, saidBy } from "../said.js";

const COURSE = join(ROOT, "tests", "cli", "quay.yaml");
let folder: string;
let store: string;

const run = (words: readonly string[], input = ""): Promise<Said> =>
  saidBy(words, { input, now: "2026-03-30T18:00:00Z" });
const onStore = (words: readonly string[], input?: string): Promise<Said> => run([...words, "--store", store], input);
const report = (...words: readonly string[]): Promise<Said> => onStore(["report", ...words]);
const reported = async (...words: readonly string[]): Promise<Report> =>
  JSON.parse((await report("--as", "json", ...words)).out) as Report;

/** A take in tempo with the score, or so many per cent off it in the silences. */
async function takeOf(id: string, drill: string, percent: number): Promise<string> {
  const { out } = await run(["score", COURSE, drill, "1", "--json"]);
  const score = JSON.parse(out) as Score;
  const onsets = score.expected.map(({ at }) => {
    const silence = score.dropouts.find(({ from, to }) => at > from && at <= to);
    return silence === undefined ? at : at + ((at - silence.from) * percent) / 100;
  });
  const path = join(folder, `${id}.json`);
  writeFileSync(path, JSON.stringify({ id, zero: "bar-1", onsets }));
  return path;
}

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "leeway-cli-report-"));
  store = join(folder, "journals.sqlite");
  await onStore(["enrol", COURSE, "tern", "gull", "=knot", "--at", "2026-03-02T17:00:00Z"]);
  const steady = [await takeOf("a", "steady", 0), await takeOf("b", "steady", 0)];
  for (const student of ["tern", "gull"]) await onStore(["submit", student, ...steady, "--at", "2026-03-02T17:30:00Z"]);
  for (const [i, day] of ["09", "10", "16", "17"].entries())
    for (const [k, percent] of [-11, -12, -10].entries())
      await onStore([
        ...["submit", "tern", await takeOf(`tern-${i}-${k}`, "half-bar", percent)],
        ...["--at", `2026-03-${day}T17:3${k}:00Z`],
      ]);
});
afterAll(() => rmSync(folder, { force: true, recursive: true }));

describe("leeway report", () => {
  test("says who is where, who is stuck and on what, and drift by length of silence and week", async () => {
    const said = await report();
    expect(said).toMatchObject({ status: 0, err: "" });
    expect(said.out).toMatch(/^3 students, 2026-03-30T18:00:00Z\n {2}quay-test: 3 students, 1 stuck/);
    expect(said.out).toMatch(/\n {2}=knot +steady +1 of \d+ +2026-03-02 +no take +none +quiet\n/);
    expect(said.out).toMatch(/\n {2}gull +half-bar +1 of \d+ +2026-03-02 +no take +2026-03-02 +quiet\n/);
    expect(said.out).toMatch(/\n {2}tern at half-bar, rung 1 of \d+: silence 1\/2 bar/);
    expect(said.out).toMatch(/\n {4}drift in silences of 1\/2 bar, rushing: \d+ takes?, median \d+ ms early\n/);
    expect(said.out).toMatch(/\n {2}1\/2 bar +2026-03-09 +6 +\d+ +\d+ +\d+ ms early \(.*\n +2026-03-16 +6 /);
  });

  test("answers as JSON by its schema, with --json as with --as json", async () => {
    const { out } = await report("--as", "json");
    expect((await report("--json")).out).toBe(out);
    expect(checkReport(JSON.parse(out))).toMatchObject({ ok: true });
    const { students, courses } = JSON.parse(out) as Report;
    expect(students.map(({ student }) => student)).toEqual(["=knot", "gull", "tern"]);
    expect(courses).toMatchObject([{ curriculum: "quay-test", students: 3, stuck: 1, quiet: 2 }]);
  });

  test("answers as CSV, one table or the other, and disarms formulas", async () => {
    const students = (await report("--as", "csv")).out;
    expect(students.split("\r\n")).toHaveLength(5);
    expect(students).toMatch(/^student,course,.*\r\n'=knot,quay-test,/);
    const drift = (await report("--as", "csv", "--table", "drift")).out.split("\r\n");
    expect(drift[1]).toMatch(/^1\/2 bar,each silence,2026-03-09,6,\d+,\d+,-\d+/);
  });

  test("answers as SVG, of the width asked, and as a page, into a file of the owner's alone", async () => {
    const chart = (await report("--as", "svg", "--width", "360")).out;
    expect(chart).toContain('viewBox="0 0 360 ');
    XmlDocument.fromString(chart).dispose();
    const out = join(folder, "class.html");
    expect(await report("--as", "html", "--out", out)).toEqual({ status: 0, out: "", err: "" });
    const page = readFileSync(out, "utf8");
    expect(page).toContain("<h1>Keeping time: 3 students</h1>");
    expect(page).toContain("<bdi>=knot</bdi>");
    if (process.platform !== "win32") expect(statSync(out).mode & 0o077).toBe(0);
    expect(existsSync(`${out}.part`)).toBe(false);
  });

  test("of one student has the student's climb in it, and only that student", async () => {
    const { students, drift } = await reported("tern");
    expect(students.map(({ student }) => student)).toEqual(["tern"]);
    expect(drift).toEqual((await reported()).drift);
    expect((await report("tern", "--as", "svg")).out).toMatch(/<title>After \d+.weeks? tern /);
    expect((await report("tern", "--as", "html")).out).not.toContain("gull");
    expect((await reported("gull", "tern", "gull")).students.map(({ student }) => student)).toEqual(["gull", "tern"]);
  });

  test("as it was at a time is what it would have said then", async () => {
    const early = await reported("--at", "2026-03-05T12:00:00Z");
    expect(early.drift).toEqual([]);
    expect(early.students[2]!.courses[0]).toMatchObject({ quiet: false, places: [{ drill: "half-bar" }] });
    expect(early.students[2]!.courses[0]!.places[0]).not.toHaveProperty("stall");
    expect((await reported("--at", "2026-03-01T12:00:00Z")).students).toEqual([]);
    expect((await report("--at", "2026-03-01T12:00:00Z")).out).toBe("0 students, 2026-03-01T12:00:00Z\n");
  });

  test("counts the takes of a time when asked", async () => {
    const since = await reported("--since", "2026-03-16");
    expect(since.since).toBe("2026-03-16");
    expect(since.drift.map(({ weeks }) => weeks.map(({ week }) => week))).toEqual([["2026-03-16"]]);
    const { within, beyond, unclear } = since.courses[0]!.takes;
    expect(within + beyond + unclear).toBe(6);
    expect(since.students[2]!.courses[0]!.places).toEqual((await reported()).students[2]!.courses[0]!.places);
  });

  test("names students and courses it does not know, and reports the others", async () => {
    const said = await report("trn", "gull", "--as", "json");
    expect(said.status).toBe(1);
    expect(said.err).toContain("STUDENT_UNKNOWN");
    expect((JSON.parse(said.out) as Report).students.map(({ student }) => student)).toEqual(["gull"]);
    expect(await report("trn", "--json")).toMatchObject({ status: 1, out: expect.stringContaining("STUDENT_UNKNOWN") });
    const course = await report("--course", "quay-tst");
    expect(course).toMatchObject({ status: 1, out: "" });
    expect(course.err).toMatch(/NOBODY_IN_COURSE[\s\S]*write quay-test/);
    expect((await reported("--course", "quay-test")).students).toHaveLength(3);
  });

  test("goes on without the course, and says what it cannot say then", async () => {
    const { out } = await onStore(["journal", "export"]);
    const bare = join(folder, "bare.sqlite");
    await run(["journal", "import", "-", "--store", bare], out);
    const said = await run(["report", "--store", bare]);
    expect(said.status).toBe(0);
    expect(said.err).toContain("COURSE_NOT_KEPT");
    expect(said.out).toContain("3 students");
    const report = JSON.parse((await run(["report", "--store", bare, "--json"])).out) as Report;
    expect(report.students[2]!.courses[0]!.places[0]!.stuckAfter).toEqual({
      unmeasured: "the course is not at hand",
      message: { key: "report.no-course", parameters: {} },
    });
  });

  test("has a student of two courses once, with both", async () => {
    const both = join(folder, "both.sqlite");
    const other = join(folder, "other.yaml");
    writeFileSync(other, readFileSync(COURSE, "utf8").replace("quay-test", "harbour-test"));
    for (const course of [COURSE, other]) await run(["enrol", course, "tern", "--store", both]);
    const { out } = await run(["report", "tern", "--store", both, "--json"]);
    const { students, courses } = JSON.parse(out) as Report;
    expect(students).toMatchObject([
      { student: "tern", courses: [{ curriculum: "harbour-test" }, { curriculum: "quay-test" }] },
    ]);
    expect(courses).toHaveLength(2);
    expect((await run(["report", "--store", both])).out).toContain("tern (quay-test)");
  });

  test("says where it cannot write, and leaves nothing there", async () => {
    const said = await report("--out", join(folder, "no", "such.txt"));
    expect(said).toMatchObject({ status: 1, out: "", err: expect.stringContaining("OUTPUT_UNWRITABLE") });
  });

  test.each([
    [["--as", "pdf"]],
    [["--as", "csv", "--table", "marks"]],
    [["--as", "svg", "--width", "100"]],
    [["--since", "2026-02-30"]],
    [["--since", "march"]],
    [["--at", "yesterday"]],
  ])("calls %j misuse", async (words) => {
    expect((await report(...words)).status).toBe(2);
  });
});
