import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { Statement } from "../../../lib/records/index.js";
import type { Score } from "../../../lib/schema/index.js";
import { violations } from "../../records/xapiRules.js";
import { ROOT } from "../../sources.js";
import { type Said, saidBy } from "../said.js";

const COURSE = join(ROOT, "tests", "cli", "quay.yaml");
const HOME = ["--home", "https://quayside.example"] as const;

let folder: string;
let store: string;
let keyFile: string;
let length: number;

const run = (words: readonly string[]): Promise<Said> => saidBy([...words, "--store", store]);

const records = (words: readonly string[]): Promise<Said> => run(["journal", "export", ...words, ...HOME]);

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "leeway-records-"));
  store = join(folder, "school.sqlite");
  keyFile = join(folder, "school.key");
  writeFileSync(keyFile, "0123456789abcdef0123456789abcdef\n");
  await run(["enrol", COURSE, "oystercatcher", "sanderling"]);
  const score = JSON.parse((await saidBy(["score", COURSE, "steady", "1", "--json"])).out) as Score;
  length = score.countIn + score.duration;
  for (const id of ["oystercatcher-monday", "oystercatcher-tuesday"]) {
    const path = join(folder, `${id}.json`);
    writeFileSync(path, JSON.stringify({ id, zero: "bar-1", onsets: score.expected.map(({ at }) => at) }));
    await run(["submit", "oystercatcher", path]);
  }
});
afterAll(() => rmSync(folder, { force: true, recursive: true }));

describe("leeway journal export --as xapi", () => {
  test("writes a valid statement a line, under pseudonyms, and says what is in them and that nothing was sent", async () => {
    const said = await records(["--as", "xapi", "--key-file", keyFile]);
    expect(said.status).toBe(0);
    const statements = said.out
      .trimEnd()
      .split("\n")
      .map((line) => JSON.parse(line) as Statement);
    expect(statements.flatMap(violations)).toEqual([]);
    expect(statements.map(({ verb }) => verb.display.en)).toEqual(["attempted", "attempted", "passed", "completed"]);
    expect(statements[0]).toMatchObject({
      object: {
        id: expect.stringMatching(
          /^https:\/\/quayside\.example\/courses\/quay-test\/drills\/steady\/rungs\/tempo%3D96/,
        ),
      },
      result: { success: true, duration: `PT${Number(length.toFixed(2))}S` },
      context: { revision: "1.0.0" },
      timestamp: "2026-03-02T17:30:00Z",
    });
    expect(said.out).not.toContain("oystercatcher");
    expect(said.out).not.toContain("monday");
    expect(said.err).toMatch(
      /^4 statements from 2 journals, for accounts at https:\/\/quayside\.example: pseudonyms .*Nothing was sent\./,
    );
    expect((await records(["--as", "xapi", "--key-file", keyFile])).out).toBe(said.out);
  });

  test("writes one list, into a file, of the students asked for", async () => {
    const out = join(folder, "records.json");
    const said = await records([
      "oystercatcher",
      "--as",
      "xapi-list",
      "--key-file",
      keyFile,
      "--out",
      out,
      "--base",
      "https://quayside.example/x/",
    ]);
    expect(said).toMatchObject({ status: 0, out: "" });
    const list = JSON.parse(readFileSync(out, "utf8")) as Statement[];
    expect(list.flatMap(violations)).toEqual([]);
    expect(list.map(({ object }) => object.id.startsWith("https://quayside.example/x/courses/"))).toEqual([
      true,
      true,
      true,
      true,
    ]);
    expect((await records(["sanderling", "--as", "xapi-list", "--key-file", keyFile])).out).toBe("[]\n");
    expect((await records(["sanderling", "--as", "xapi", "--key-file", keyFile])).out).toBe("");
  });

  test("names students only when it is told to, and says so", async () => {
    const said = await records(["--as", "xapi", "--names"]);
    const [first] = said.out.split("\n").map((line) => JSON.parse(line || "{}") as Statement);
    expect(first!.actor).toEqual({
      objectType: "Agent",
      name: "oystercatcher",
      account: { homePage: "https://quayside.example", name: "oystercatcher" },
    });
    expect(JSON.stringify(first!.result.extensions)).toContain("oystercatcher-monday");
    expect(said.err).toContain("NAMES");
  });

  test.each([
    ["no home page", ["--as", "xapi", "--key-file", "KEY"]],
    ["neither key nor names", ["--as", "xapi", ...HOME]],
    ["both", ["--as", "xapi", "--key-file", "KEY", "--names", ...HOME]],
    ["another format", ["--as", "csv"]],
  ])("calls it misuse to give %s", async (_what, words) => {
    const said = await run(["journal", "export", ...words.map((word) => (word === "KEY" ? keyFile : word))]);
    expect(said).toMatchObject({ status: 2, out: "" });
  });

  test.each([
    ["a key that is not there", () => ["--key-file", join(folder, "no.key")], "INPUT_NOT_FOUND"],
    ["a key that is too short without its line end", () => ["--key-file", shortKey()], "RECORD_KEY_TOO_SHORT"],
    ["an address that is none", () => ["--names", "--base", "quayside"], "RECORD_ADDRESS_NOT_ABSOLUTE"],
  ])("refuses %s before it writes anything", async (_what, words, code) => {
    const said = await records(["--as", "xapi", ...words()]);
    expect(said).toMatchObject({ status: 1, out: "", err: expect.stringContaining(code) });
  });
});

function shortKey(): string {
  const path = join(folder, "short.key");
  writeFileSync(path, "0123456789abcde\r\n");
  return path;
}
