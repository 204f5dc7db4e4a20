import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { PRIOR } from "../../lib/take/state/noise.js";
import { SURE } from "../../lib/take/verdict.js";
import { ROOT } from "../sources.js";

const pages = ["METHOD.md", "REAL-PLAYERS.md", "FORECAST.md"] as const;
const read = (page: string): string => readFileSync(join(ROOT, "tests", "reference", page), "utf8");

describe.each(pages)("%s", (page) => {
  const text = read(page);

  test("names only tests, files and folders that are there", () => {
    const named = [...text.matchAll(/`((?:tests|lib)\/[\w./-]+)`/g)].map(([, path]) => path!);
    expect(named.length).toBeGreaterThan(0);
    for (const path of named) expect(existsSync(join(ROOT, path)), path).toBe(true);
  });

  test("names only benches that are there, and pictures and pages beside it", () => {
    for (const [, bench] of text.matchAll(/npm run bench -- ([\w-]+)/g)) {
      expect(existsSync(join(ROOT, "tests", "bench", `${bench}.bench.ts`)), bench).toBe(true);
    }
    for (const [, link] of text.matchAll(/\]\(([\w.-]+)\)/g)) {
      expect(existsSync(join(ROOT, "tests", "reference", link!)), link).toBe(true);
    }
  });
});

test("METHOD.md states the priors and the level of sureness that the code holds", () => {
  const text = read("METHOD.md");
  const row = (name: string): string => text.split("\n").find((line) => line.startsWith(`| ${name} |`)) ?? "";
  expect(row("motor SD, prior")).toContain(`median ${PRIOR.motor} ms, SD of its logarithm ${PRIOR.motorSd} `);
  expect(row("clock over motor, prior")).toContain(`median ${PRIOR.clockToMotor}, ${PRIOR.clockSd} `);
  expect(row("tempo bias for each ms of clock")).toContain(`| ${PRIOR.biasPerClock}, ${PRIOR.biasSd} |`);
  expect(row("phase correction a")).toContain(`| ${PRIOR.correction} |`);
  expect(row("sure")).toContain(`| ${SURE} |`);
});
