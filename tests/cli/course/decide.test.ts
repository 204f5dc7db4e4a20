import { spawnSync } from "node:child_process";
import { appendFileSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { checkEvent, type JournalEvent, type Score } from "../../../lib/index.js";
import { builtEntry } from "../../built.js";
import { ROOT } from "../../sources.js";

const COURSE = join(ROOT, "tests", "cli", "quay.yaml");
const AT = ["--at", "2026-03-02T17:30:00Z"];

let entry: string;
let folder: string;
beforeAll(() => {
  entry = builtEntry();
  folder = mkdtempSync(join(tmpdir(), "leeway-decide-"));
});
afterAll(() => rmSync(folder, { force: true, recursive: true }));

function leeway(
  words: readonly string[],
  input = "",
): { readonly status: number | null; readonly out: string; readonly err: string } {
  const { status, stdout, stderr } = spawnSync(process.execPath, [entry, ...words], {
    cwd: folder,
    encoding: "utf8",
    input,
  });
  return { status, out: stdout, err: stderr };
}

const events = (text: string): readonly JournalEvent[] =>
  text
    .split("\n")
    .filter((line) => line !== "")
    .map((line) => JSON.parse(line) as JournalEvent);
const kinds = (text: string): readonly string[] => events(text).map((event) => event.kind);

/** Findings of exact takes of the first drill, one for each name, as JSON Lines. */
function cleanFindings(...names: readonly string[]): string {
  const score = JSON.parse(leeway(["score", COURSE, "steady", "0", "--json"]).out) as Score;
  const onsets = score.expected.map((onset) => onset.at);
  const takes = names.map((id) => `${JSON.stringify({ id, onsets, zero: "bar-1" })}\n`).join("");
  return leeway(["assess", COURSE, "steady", "0", "-", "--json"], takes).out;
}

describe("leeway decide", () => {
  test("enrols a student whose journal is not there yet, and opens what needs nothing", () => {
    const said = leeway(["decide", COURSE, "--journal", "new.jsonl", "--student", "tern", ...AT]);
    expect(said.status).toBe(0);
    expect(kinds(said.out)).toEqual(["enrolled", "drill opened"]);
    for (const event of events(said.out)) expect(checkEvent(event).ok).toBe(true);
  });

  test("prints the events of each finding in order; appended, they make the next decision go on from there", () => {
    const journal = join(folder, "tern.jsonl");
    writeFileSync(journal, leeway(["decide", COURSE, "--journal", journal, "--student", "tern", ...AT]).out);
    const first = leeway(["decide", COURSE, "--journal", journal, "--findings", "-", ...AT], cleanFindings("a"));
    expect(first.status).toBe(0);
    expect(kinds(first.out)).toEqual(["take assessed"]);
    expect(first.err).toMatch(/^a {2}hold: /);
    appendFileSync(journal, first.out);
    const second = leeway(["decide", COURSE, "--journal", journal, "--findings", "-", ...AT], cleanFindings("b"));
    expect(kinds(second.out)).toEqual(["take assessed", "drill completed", "drill opened"]);
    appendFileSync(journal, second.out);
    expect(leeway(["decide", COURSE, "--journal", journal, ...AT])).toEqual({ status: 0, out: "", err: "" });
  });

  test("counts a take once, however often it is given", () => {
    const journal = join(folder, "twice.jsonl");
    writeFileSync(journal, leeway(["decide", COURSE, "--journal", journal, "--student", "tern", ...AT]).out);
    const said = leeway(
      ["decide", COURSE, "--journal", journal, "--findings", "-", ...AT],
      cleanFindings("a", "a", "a"),
    );
    expect(kinds(said.out)).toEqual(["take assessed"]);
  });

  test("says nothing on standard error with --json when all is well", () => {
    const said = leeway(
      ["decide", COURSE, "--journal", "none.jsonl", "--student", "tern", "--json", "--findings", "-", ...AT],
      cleanFindings("a"),
    );
    expect(said).toMatchObject({ status: 0, err: "" });
    expect(kinds(said.out)).toEqual(["enrolled", "drill opened", "take assessed"]);
  });

  test("refuses an empty journal without a student, and a journal of another course", () => {
    writeFileSync(join(folder, "empty.jsonl"), "\n");
    expect(leeway(["decide", COURSE, "--journal", "empty.jsonl", ...AT])).toMatchObject({ status: 1, out: "" });
    expect(leeway(["decide", COURSE, "--journal", "empty.jsonl", ...AT]).err).toContain("NOBODY_ENROLLED");
    const foreign = leeway(["decide", COURSE, "--journal", "x.jsonl", "--student", "tern", ...AT]).out.replaceAll(
      "quay-test",
      "other",
    );
    writeFileSync(join(folder, "foreign.jsonl"), foreign);
    expect(leeway(["decide", COURSE, "--journal", "foreign.jsonl", ...AT])).toMatchObject({ status: 1, out: "" });
    expect(leeway(["decide", COURSE, "--journal", "foreign.jsonl", ...AT]).err).toContain("JOURNAL_OF_OTHER_COURSE");
  });

  test("names a corrupt line of the journal and a bad finding by file and line, and goes on with what is good", () => {
    const journal = join(folder, "torn.jsonl");
    writeFileSync(
      journal,
      `${leeway(["decide", COURSE, "--journal", journal, "--student", "tern", ...AT]).out}{"kind": "adva\n`,
    );
    const findings = `{"take": "x"}\n${cleanFindings("a")}`;
    const said = leeway(["decide", COURSE, "--journal", "torn.jsonl", "--findings", "-", ...AT], findings);
    expect(said.status).toBe(1);
    expect(said.err).toMatch(/^torn\.jsonl:3\S* {2}JOURNAL_LINE_NOT_JSON/m);
    expect(said.err).toMatch(/^-:1 {2}MISSING_KEY/m);
    expect(kinds(said.out)).toEqual(["take assessed"]);
  });

  test("calls a time that is none misuse", () => {
    expect(leeway(["decide", COURSE, "--journal", "x.jsonl", "--at", "yesterday"]).status).toBe(2);
  });
});
