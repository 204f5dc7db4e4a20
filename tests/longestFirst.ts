import { statSync } from "node:fs";
import { relative } from "node:path";
import { BaseSequencer, type TestSpecification } from "vitest/node";

/**
 * Seconds that the longest test files take, as measured on 2026-11-29 in a run of all of them on two cores (Node 20; of the hostile texts, and of sheets, which were made quicker since, estimates).
 * Only their order matters: a long file that starts last keeps one core busy while the other is idle. `tests/suite.test.ts` sees to it that each is there.
 */
export const LONGEST: Readonly<Record<string, number>> = {
  "tests/browser/page.test.ts": 157,
  "tests/browser/takes.test.ts": 151,
  "tests/cli/publish/publish.test.ts": 77,
  "tests/render/sheet/published.test.ts": 75,
  "tests/browser/school.test.ts": 74,
  "tests/readme.test.ts": 69,
  "tests/browser/languages.test.ts": 66,
  "tests/render/sheet/layOutSheet.test.ts": 60,
  "tests/render/sheet/renderSheet.test.ts": 60,
  "tests/render/printed/notes.test.ts": 57,
  "tests/browser/faults.test.ts": 55,
  "tests/cli/render/render.test.ts": 51,
  "tests/render/sound/outside.test.ts": 49,
  "tests/node/encoding/encodeSound.test.ts": 48,
  "tests/whole/invariants.property.test.ts": 44,
  "tests/curriculum/hostile.test.ts": 35,
  "tests/purity.test.ts": 30,
  "tests/words/compile.test.ts": 30,
  "tests/contracts/store.test.ts": 27,
  "tests/formats/sound/flac/encodeFlac.test.ts": 26,
  "tests/listen/backing/findBacking.test.ts": 24,
  "tests/cli/cautions.test.ts": 24,
  "tests/node/batch/renderBatch.test.ts": 23,
  "tests/store/faults.test.ts": 20,
  "tests/store/traces.test.ts": 19,
  "tests/cli/everyCommand.test.ts": 19,
  "tests/cli/serve/serve.test.ts": 16,
  "tests/whole/findings.property.test.ts": 15,
  "tests/node/soundFile/openSoundFile.test.ts": 14,
  "tests/cli/listen/listen.test.ts": 13,
  "tests/listen/takeFromSound.test.ts": 12,
  "tests/store/server.test.ts": 12,
  "tests/reference/continuation.test.ts": 11,
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
