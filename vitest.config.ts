import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["tests/**/*.test.ts"],
    benchmark: { include: ["tests/bench/**/*.bench.ts"] },
    setupFiles: ["tests/propertySeed.ts"],
    reporters: ["default", "./.ci/tally.mjs"],
    // Property tests on a slow machine with 2 cores; nothing here measures time.
    testTimeout: 120_000,
    hookTimeout: 120_000,
  },
});
