import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test, vi } from "vitest";
import { ROOT } from "../../sources.js";
import { type Said, saidBy, useFolder } from "../said.js";

vi.mock("better-sqlite3", () => {
  throw new Error("Could not locate the bindings file");
});

vi.mock("../../../lib/store/sqlite/nodeDriver.js", () => ({ nodeDriver: () => undefined }));

const COURSE = join(ROOT, "curricula", "quayside-first-course.yaml");

useFolder("leeway-without-driver-");

test("where nothing here opens a store, a command says so before it says that there is none, and what goes without one", async () => {
  for (const words of [
    ["plan", "tern", "--minutes", "20", "--store", "none.sqlite"],
    ["standing", "tern", "--store", "none.sqlite"],
    ["enrol", COURSE, "tern", "--store", "none.sqlite"],
  ]) {
    const { status, err } = await saidBy(words);
    expect([status, err]).toEqual([
      1,
      expect.stringMatching(/^STORE_DRIVER_MISSING .*\n +-> use Node 22\.13 or later/),
    ]);
    expect(err).toContain("leeway decide COURSE --journal FILE --student NAME >> FILE");
  }
});

test("what it says goes without a store does", async () => {
  const planFrom = (journal: string): Promise<Said> =>
    saidBy(["plan", "tern", "--journal", journal, "--course", COURSE, "--minutes", "20"]);
  const { out } = await saidBy(["decide", COURSE, "--journal", "gull.jsonl", "--student", "gull"]);
  writeFileSync("gull.jsonl", out);
  const missing = await planFrom("gull.jsonl");
  const command = /leeway (decide \S+ --journal FILE --student tern) >> FILE/.exec(missing.err)![1]!;
  const begun = await saidBy(command.replace("FILE", "tern.jsonl").split(" "));
  writeFileSync("tern.jsonl", begun.out);
  expect(await planFrom("tern.jsonl")).toMatchObject({ status: 0, out: expect.stringContaining("minutes") });
});
