import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { Plan } from "../../../lib/plan/index.js";
import { ROOT } from "../../sources.js";
import { type Said, saidBy } from "../said.js";

const COURSE = join(ROOT, "curricula", "quayside-first-course.yaml");

let folder: string;
let journal: string;
let store: string;
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "leeway-plan-"));
  journal = join(folder, "tern.jsonl");
  store = join(folder, "quay.sqlite");
  writeFileSync(journal, (await run("decide", COURSE, "--journal", journal, "--student", "tern")).out);
  await run("enrol", COURSE, "tern", "--store", store);
});
afterAll(() => rmSync(folder, { force: true, recursive: true }));

const run = (...words: readonly string[]): Promise<Said> => saidBy(words, { now: "2026-03-02T17:30:00.000Z" });
const fromFiles = (...words: readonly string[]): ReturnType<typeof run> =>
  run("plan", "tern", "--journal", journal, "--course", COURSE, ...words);

describe("leeway plan", () => {
  test("plans from a journal file, and the same from a store", async () => {
    const files = await fromFiles("--minutes", "20");
    expect(files).toMatchObject({ status: 0, err: "" });
    expect(files.out).toMatch(
      /^tern, 2026-03-02: \d+ of 20 minutes\n {3}0:00 {2}new work {3}[^,]+, up to \d+ takes: rung 1, /,
    );
    expect(await run("plan", "tern", "--minutes", "20", "--store", store)).toEqual(files);
  });

  test("answers as JSON within the minutes, with the outlook that was asked for", async () => {
    const said = await fromFiles("--minutes", "15", "--ready-by", "2026-03-12", "--drill", "half-bar", "--json");
    const plan = JSON.parse(said.out) as Plan;
    expect(plan.seconds).toBeLessThanOrEqual(900);
    expect(plan.outlook).toMatchObject({ on: "2026-03-12", days: 10, drills: ["steady", "half-bar"] });
  });

  test("answers as a calendar file", async () => {
    const said = await fromFiles("--minutes", "15", "--calendar", "18:00", "--today", "2026-03-05");
    expect(said.out).toMatch(/^BEGIN:VCALENDAR\r\n/);
    expect(said.out).toContain("DTSTART:20260305T180000\r\n");
    expect(said.out).toContain("DTSTAMP:20260302T173000Z\r\n");
  });

  test("tells what is wrong with the request, the student or the day", async () => {
    const said = await fromFiles("--minutes", "0", "--today", "2026-02-30");
    expect(said.status).toBe(1);
    expect(said.err).toMatch(/PLAN_DATE_NOT_READ[\s\S]*PLAN_MINUTES_OUT_OF_RANGE/);
    const other = await run("plan", "gull", "--minutes", "20", "--journal", journal, "--course", COURSE);
    expect(other).toMatchObject({ status: 1, out: "", err: expect.stringContaining("NOBODY_ENROLLED") });
    expect(await run("plan", "gull", "--minutes", "20", "--store", store)).toMatchObject({ status: 1, out: "" });
  });

  test("calls a journal without its course, a time that is none and a word for minutes misuse", async () => {
    expect((await run("plan", "tern", "--minutes", "20", "--journal", journal)).status).toBe(2);
    expect((await fromFiles("--minutes", "20", "--calendar", "6 pm")).status).toBe(2);
    expect((await fromFiles("--minutes", "many")).status).toBe(2);
  });
});
