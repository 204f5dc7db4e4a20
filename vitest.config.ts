import { readdirSync, readFileSync } from "node:fs";
import { availableParallelism } from "node:os";
import { join } from "node:path";
import { defineConfig } from "vitest/config";
import LongestFirst from "./tests/longestFirst.js";

const TESTS = readdirSync("tests", { recursive: true, encoding: "utf8" })
  .map((file) => join("tests", file))
  .filter((file) => file.endsWith(".test.ts"))
  .map((file) => ({ file, text: readFileSync(file, "utf8") }));

/** Test files that put other modules in the place of ours, or load ours anew: each has a process to itself. All others share the modules that they load, which saves two thirds of the time of a short file. */
const ALONE = testsWith(/\bvi\.(?:mock|doMock|resetModules)\b/);
/** Test files that play and hear in real time, or ask what was decided on such a take: they run last, and nothing beside them. Those of stores in a browser do neither. */
const IN_REAL_TIME = testsWith(/^(?!.*from "\.\/remoteStore\.js").*(?:from "\.\/chromium\.js"|"#decision")/s);

export default defineConfig({
  test: {
    benchmark: { include: ["tests/bench/**/*.bench.ts"] },
    // Every core: left to itself vitest keeps one free, which on two cores is half of the machine.
    maxWorkers: availableParallelism(),
    sequence: { sequencer: LongestFirst },
    setupFiles: ["tests/propertySeed.ts"],
    reporters: ["default", "./.ci/tally.mjs"],
    // Milliseconds. Property tests on a slow machine with 2 cores, or an hour for each at the size of a proof; nothing here measures time.
    testTimeout: process.env.LEEWAY_PROOF === "yes" ? 3_600_000 : 120_000,
    hookTimeout: 120_000,
    projects: [
      { extends: true, test: { name: "alone", include: ALONE } },
      {
        extends: true,
        test: { name: "shared", include: ["tests/**/*.test.ts"], exclude: [...ALONE, ...IN_REAL_TIME], isolate: false },
      },
      {
        extends: true,
        test: {
          name: "in real time",
          include: IN_REAL_TIME,
          isolate: false,
          maxWorkers: 1,
          sequence: { groupOrder: 1 },
        },
      },
    ],
  },
});

function testsWith(pattern: RegExp): string[] {
  return TESTS.filter(({ text }) => pattern.test(text)).map(({ file }) => file);
}
