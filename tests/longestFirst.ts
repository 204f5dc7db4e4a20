import { statSync } from "node:fs";
import { relative } from "node:path";
import { BaseSequencer, type TestSpecification } from "vitest/node";

/**
 * Seconds of processor time of the longest test files, their child processes included, as measured on 2026-11-28 (Node 20; of the hostile texts an estimate). Only their order matters: a long
 * file that starts last keeps one core busy while the other is idle. `tests/suite.test.ts` sees to it that each is there.
 */
export const LONGEST: Readonly<Record<string, number>> = {
  "tests/render/sound/outside.test.ts": 17,
  "tests/curriculum/hostile.test.ts": 35,
  "tests/readme.test.ts": 34,
  "tests/render/sheet/renderSheet.test.ts": 19,
  "tests/render/sheet/layOutSheet.test.ts": 20,
  "tests/cli/render/render.test.ts": 14,
  "tests/listen/takeFromSound.test.ts": 13,
  "tests/purity.test.ts": 11,
  "tests/store/faults.test.ts": 11,
  "tests/cli/listen/listen.test.ts": 10,
  "tests/reference/continuation.test.ts": 10,
  "tests/render/musicxml/musicXml.test.ts": 10,
  "tests/whole/findings.property.test.ts": 10,
};

/** Starts before all others, so that the first result comes within seconds. */
const FIRST = "tests/layers.test.ts";

/** A quick file first, then the long ones, then the others, the largest first. */
export default class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const { root } = this.ctx.config;
    const weight = ({ moduleId }: TestSpecification): number => {
      const path = relative(root, moduleId).replaceAll("\\", "/");
      if (path === FIRST) return Number.POSITIVE_INFINITY;
      const seconds = LONGEST[path];
      // Bytes of a file are far below a million.
      return seconds === undefined ? statSync(moduleId).size : 1e6 * seconds;
    };
    return [...files].sort((a, b) => weight(b) - weight(a));
  }
}
