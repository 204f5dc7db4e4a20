import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { build } from "esbuild";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { HOSTILE, LARGE_HOSTILE } from "./hostile.js";

/** Seconds of processor time for reading one text; twice the second promised, because the machines that test are slow and shared. */
const MOST_SECONDS = 2;
/** Megabytes the whole process may ever have held, Node itself (about 45) included. */
const MOST_MEGABYTES = 200;

interface Report {
  readonly codes: readonly string[];
  readonly seconds: number;
  readonly megabytes: number;
  readonly polluted: boolean;
  readonly asked: readonly string[];
  readonly length: number;
}

/** The most memory that a process has used. On Linux the operating system's own answer begins with that of the process that started it. */
const PEAK = `
  import { existsSync, readFileSync } from "node:fs";
  const STATUS = "/proc/self/status";
  const megabytes = () =>
    (existsSync(STATUS) ? Number(/VmHWM:\\s+(\\d+)/.exec(readFileSync(STATUS, "utf8"))[1]) : process.resourceUsage().maxRSS) / 1024;`;

/** Reads one text in a process of its own and prints what that took. */
const CHILD = `
  ${PEAK}
  import { readCurriculum } from "./curriculum.mjs";
  import { HOSTILE, LARGE_HOSTILE } from "./hostile.mjs";
  const text = (HOSTILE[process.argv[2]] ?? LARGE_HOSTILE[process.argv[2]]).make();
  const asked = [];
  const before = process.cpuUsage();
  const result = readCurriculum(text, { file: "hostile.yaml", readFile: (path) => { asked.push(path); return undefined; } });
  const { user, system } = process.cpuUsage(before);
  const problems = result.ok ? result.advice : result.problems;
  console.log(JSON.stringify({
    codes: problems.map((problem) => problem.code),
    seconds: (user + system) / 1e6,
    megabytes: megabytes(),
    polluted: "polluted" in {},
    asked,
    length: text.length,
  }));`;

const folder = mkdtempSync(join(tmpdir(), "leeway-hostile-"));

beforeAll(async () => {
  const bundle = (entry: string, outfile: string): Promise<unknown> =>
    build({
      entryPoints: [entry],
      outfile: join(folder, outfile),
      bundle: true,
      format: "esm",
      platform: "neutral",
      mainFields: ["module", "main"],
      conditions: ["browser", "import"],
      logLevel: "silent",
    });
  const here = new URL(".", import.meta.url).pathname;
  await bundle(join(here, "../../lib/curriculum/index.ts"), "curriculum.mjs");
  await bundle(join(here, "hostile.ts"), "hostile.mjs");
  writeFileSync(join(folder, "child.mjs"), CHILD);
});
afterAll(() => rmSync(folder, { recursive: true }));

const report = (name: string): Report =>
  JSON.parse(
    execFileSync(process.execPath, [join(folder, "child.mjs"), name], { encoding: "utf8", timeout: 60_000 }),
  ) as Report;

describe("hostile text is answered in a second and 200 MB", () => {
  test.each(Object.entries(HOSTILE))(
    "%s",
    (name, { code }) => {
      const { codes, seconds, megabytes, polluted, asked, length } = report(name);
      expect(length, "the text is there").toBeGreaterThan(0);
      if (code !== "") expect(codes).toContain(code);
      expect(seconds).toBeLessThan(MOST_SECONDS);
      expect(megabytes).toBeLessThan(MOST_MEGABYTES);
      expect(polluted).toBe(false);
      expect(asked).toEqual([]);
      expect(codes.length, "and is not answered by a flood").toBeLessThanOrEqual(501);
    },
    60_000,
  );

  test("what is measured can exceed the limits: a loop and a large array do", () => {
    const waste = `${PEAK} const from = process.cpuUsage(); const kept = []; const used = () => { const { user, system } = process.cpuUsage(from); return user + system; }; while (used() < 2.1e6) if (kept.length < 40) kept.push(new Uint8Array(8e6).fill(1)); console.log(JSON.stringify({ seconds: used() / 1e6, megabytes: megabytes() }))`;
    const { seconds, megabytes } = JSON.parse(
      execFileSync(process.execPath, ["--input-type=module", "-e", waste], { encoding: "utf8" }),
    ) as Report;
    expect(seconds).toBeGreaterThan(MOST_SECONDS);
    expect(megabytes).toBeGreaterThan(MOST_MEGABYTES);
  });
});

/** The same for texts ten times as large: ten times the time that a small one may take would be too long to wait for. */
const MOST_SECONDS_LARGE = 8;
const MOST_MEGABYTES_LARGE = 400;

describe("hostile text with the outline of a large course is answered in four seconds and 400 MB", () => {
  test.each(Object.entries(LARGE_HOSTILE))(
    "%s",
    (name, { code }) => {
      const { codes, seconds, megabytes } = report(name);
      expect(codes).toContain(code);
      expect(seconds).toBeLessThan(MOST_SECONDS_LARGE);
      expect(megabytes).toBeLessThan(MOST_MEGABYTES_LARGE);
      expect(codes.length, "and is not answered by a flood").toBeLessThanOrEqual(521);
    },
    60_000,
  );
});
