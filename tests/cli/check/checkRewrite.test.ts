import {
  chmodSync,
  copyFileSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { ROOT } from "../../sources.js";
import { saidBy } from "../said.js";

const FORMER = join(ROOT, "tests/curriculum/former/harbour.yaml");
const PRESENT = join(ROOT, "tests/curriculum/former/harbour.present.yaml");
/** Without the first line, which says of each file what it is. */
const body = (path: string): string => readFileSync(path, "utf8").replace(/^.*\n/, "");

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "leeway-rewrite-"));
});
afterAll(() => rmSync(folder, { force: true, recursive: true }));

function copy(name: string): string {
  copyFileSync(FORMER, join(folder, name));
  return join(folder, name);
}

describe("leeway check --rewrite", () => {
  test("converts a course in place, which then has no problem, and does nothing the second time", async () => {
    const file = copy("course.yaml");
    chmodSync(file, 0o640);
    expect(await saidBy(["check", "--rewrite", file])).toEqual({ status: 0, out: `${file}: rewritten\n`, err: "" });
    expect(body(file)).toBe(body(PRESENT));
    expect(statSync(file).mode & 0o777).toBe(0o640);
    expect((await saidBy(["check", file])).out).toContain("no problems");
    const before = statSync(file).mtimeMs;
    expect((await saidBy(["check", "--rewrite", file])).out).toBe(`${file}: nothing to rewrite\n`);
    expect(statSync(file).mtimeMs).toBe(before);
  });

  test("keeps a byte order mark, and a link a link", async () => {
    const file = join(folder, "marked.yaml");
    writeFileSync(file, `\uFEFF${readFileSync(FORMER, "utf8")}`);
    const link = join(folder, "link.yaml");
    symlinkSync(file, link);
    expect((await saidBy(["check", "--rewrite", link])).status).toBe(0);
    expect(readFileSync(file, "utf8").startsWith("\uFEFF#")).toBe(true);
    expect(body(link)).toBe(body(PRESENT));
  });

  test("leaves a course that would differ as it is, says why, and converts the others", async () => {
    const broken = join(folder, "broken.yaml");
    writeFileSync(broken, readFileSync(FORMER, "utf8").replace("r/4 A4/2 | %", "r/4 A4/4 | %"));
    const before = readFileSync(broken, "utf8");
    const good = copy("good.yaml");
    const { status, out, err } = await saidBy(["check", "--rewrite", broken, good]);
    expect(status).toBe(1);
    expect(out).toBe(`${broken}: left as it is\n${good}: rewritten\n`);
    expect(err).toContain("NOT_REWRITTEN");
    expect(readFileSync(broken, "utf8")).toBe(before);
    expect(body(good)).toBe(body(PRESENT));
  });

  test("answers as JSON, one line a file", async () => {
    const file = copy("json.yaml");
    const { out } = await saidBy(["check", "--rewrite", file, join(folder, "missing.yaml"), "--json"]);
    const [first, second] = out
      .trim()
      .split("\n")
      .map((line) => JSON.parse(line));
    expect(first).toEqual({ file, rewritten: true, problems: [] });
    expect(second).toMatchObject({ rewritten: false, problems: [{ code: "INPUT_NOT_FOUND" }] });
  });

  test("does not go together with --against", async () => {
    expect((await saidBy(["check", "--rewrite", FORMER, "--against", PRESENT])).status).toBe(2);
  });
});
