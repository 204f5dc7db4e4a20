import { availableParallelism } from "node:os";
import { defineConfig } from "vitest/config";
import LongestFirst from "./tests/longestFirst.js";

export default defineConfig({
  test: {
    include: ["tests/**/*.test.ts"],
    benchmark: { include: ["tests/bench/**/*.bench.ts"] },
    // Every core: left to itself vitest keeps one free, which on two cores is half of the machine.
    maxWorkers: availableParallelism(),
    sequence: { sequencer: LongestFirst },
    setupFiles: ["tests/propertySeed.ts"],
    reporters: ["default", "./.ci/tally.mjs"],
    // Milliseconds. Property tests on a slow machine with 2 cores, or an hour for each at the size of a proof; nothing here measures time.
    testTimeout: process.env.LEEWAY_PROOF === "yes" ? 3_600_000 : 120_000,
    hookTimeout: 120_000,
  },
});
