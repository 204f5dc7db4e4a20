import { appendFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { checkEvent, type JournalEvent, type Score } from "../../../lib/schema/index.js";
import { ROOT } from "../../sources.js";
import { type Said, saidBy, useFolder } from "../said.js";

const COURSE = join(ROOT, "tests", "cli", "quay.yaml");
const AT = ["--at", "2026-03-02T17:30:00Z"];

const folder = useFolder("leeway-decide-");

/** Runs a command line in this process, in the folder of the tests. */
const leeway = (words: readonly string[], input = ""): Promise<Said> => saidBy(words, { input });

const events = (text: string): readonly JournalEvent[] =>
  text
    .split("\n")
    .filter((line) => line !== "")
    .map((line) => JSON.parse(line) as JournalEvent);
const kinds = (text: string): readonly string[] => events(text).map((event) => event.kind);

/** Findings of exact takes of the first drill, one for each name, as JSON Lines. */
async function cleanFindings(...names: readonly string[]): Promise<string> {
  const score = JSON.parse((await leeway(["score", COURSE, "steady", "1", "--json"])).out) as Score;
  const onsets = score.expected.map((onset) => onset.at);
  const takes = names.map((id) => `${JSON.stringify({ id, onsets, zero: "bar-1" })}\n`).join("");
  return (await leeway(["assess", COURSE, "steady", "1", "-", "--json"], takes)).out;
}

describe("leeway decide", () => {
  test("enrols a student whose journal is not there yet, and opens what needs nothing", async () => {
    const said = await leeway(["decide", COURSE, "--journal", "new.jsonl", "--student", "tern", ...AT]);
    expect(said.status).toBe(0);
    expect(kinds(said.out)).toEqual(["enrolled", "drill opened"]);
    for (const event of events(said.out)) expect(checkEvent(event).ok).toBe(true);
  });

  test("takes a finding that was written with the former field of the landing", async () => {
    const journal = join(folder, "former.jsonl");
    writeFileSync(journal, (await leeway(["decide", COURSE, "--journal", journal, "--student", "tern", ...AT])).out);
    const [finding] = (await cleanFindings("a")).split("\n").map((line) => (line === "" ? {} : JSON.parse(line)));
    const dropout = {
      ...{ from: 1, to: 2, driftMs: 3.1, driftPercent: 0.124, standardErrorMs: 3.14, reentryMs: 0.68 },
      ...{
        landing: { ms: 0.68, standardErrorMs: 1.21 },
        slip: null,
        recoveryBeats: 0,
        verdict: "within",
        probability: 1,
      },
    };
    const former = JSON.stringify({ ...finding, dropouts: [dropout] });
    const said = await leeway(["decide", COURSE, "--journal", journal, "--findings", "-", ...AT], former);
    expect(said).toMatchObject({ status: 0 });
    expect(events(said.out)).toMatchObject([{ kind: "take assessed", measured: { landingMs: 0.68 } }]);
    const alone = JSON.stringify({ ...finding, dropouts: [{ ...dropout, landing: undefined }] });
    const refused = await leeway(["decide", COURSE, "--journal", journal, "--findings", "-", ...AT], alone);
    expect(refused.status).toBe(1);
    expect(refused.err).toContain("landing");
  });

  test("prints the events of each finding in order; appended, they make the next decision go on from there", async () => {
    const journal = join(folder, "tern.jsonl");
    writeFileSync(journal, (await leeway(["decide", COURSE, "--journal", journal, "--student", "tern", ...AT])).out);
    const first = await leeway(
      ["decide", COURSE, "--journal", journal, "--findings", "-", ...AT],
      await cleanFindings("a"),
    );
    expect(first.status).toBe(0);
    expect(kinds(first.out)).toEqual(["take assessed"]);
    expect(first.err).toMatch(/^a {2}hold: /);
    appendFileSync(journal, first.out);
    const second = await leeway(
      ["decide", COURSE, "--journal", journal, "--findings", "-", ...AT],
      await cleanFindings("b"),
    );
    expect(kinds(second.out)).toEqual(["take assessed", "drill completed", "drill opened"]);
    appendFileSync(journal, second.out);
    expect(await leeway(["decide", COURSE, "--journal", journal, ...AT])).toEqual({ status: 0, out: "", err: "" });
  });

  test("counts a take once, however often it is given", async () => {
    const journal = join(folder, "twice.jsonl");
    writeFileSync(journal, (await leeway(["decide", COURSE, "--journal", journal, "--student", "tern", ...AT])).out);
    const said = await leeway(
      ["decide", COURSE, "--journal", journal, "--findings", "-", ...AT],
      await cleanFindings("a", "a", "a"),
    );
    expect(kinds(said.out)).toEqual(["take assessed"]);
  });

  test("says nothing on standard error with --json when all is well", async () => {
    const said = await leeway(
      ["decide", COURSE, "--journal", "none.jsonl", "--student", "tern", "--json", "--findings", "-", ...AT],
      await cleanFindings("a"),
    );
    expect(said).toMatchObject({ status: 0, err: "" });
    expect(kinds(said.out)).toEqual(["enrolled", "drill opened", "take assessed"]);
  });

  test("refuses an empty journal without a student, and a journal of another course", async () => {
    writeFileSync(join(folder, "empty.jsonl"), "\n");
    expect(await leeway(["decide", COURSE, "--journal", "empty.jsonl", ...AT])).toMatchObject({ status: 1, out: "" });
    expect((await leeway(["decide", COURSE, "--journal", "empty.jsonl", ...AT])).err).toContain("NOBODY_ENROLLED");
    const foreign = (
      await leeway(["decide", COURSE, "--journal", "x.jsonl", "--student", "tern", ...AT])
    ).out.replaceAll("quay-test", "other");
    writeFileSync(join(folder, "foreign.jsonl"), foreign);
    expect(await leeway(["decide", COURSE, "--journal", "foreign.jsonl", ...AT])).toMatchObject({ status: 1, out: "" });
    expect((await leeway(["decide", COURSE, "--journal", "foreign.jsonl", ...AT])).err).toContain(
      "JOURNAL_OF_OTHER_COURSE",
    );
  });

  test("names a corrupt line of the journal and a bad finding by file and line, and goes on with what is good", async () => {
    const journal = join(folder, "torn.jsonl");
    writeFileSync(
      journal,
      `${(await leeway(["decide", COURSE, "--journal", journal, "--student", "tern", ...AT])).out}{"kind": "adva\n`,
    );
    const findings = `{"take": "x"}\n${await cleanFindings("a")}`;
    const said = await leeway(["decide", COURSE, "--journal", "torn.jsonl", "--findings", "-", ...AT], findings);
    expect(said.status).toBe(1);
    expect(said.err).toMatch(/^torn\.jsonl:3\S* {2}JOURNAL_LINE_NOT_JSON/m);
    expect(said.err).toMatch(/^-:1 {2}MISSING_KEY/m);
    expect(kinds(said.out)).toEqual(["take assessed"]);
  });

  test("calls a time that is none misuse", async () => {
    expect((await leeway(["decide", COURSE, "--journal", "x.jsonl", "--at", "yesterday"])).status).toBe(2);
  });
});
