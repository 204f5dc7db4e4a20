import { statSync } from "node:fs";
import { relative } from "node:path";
import { BaseSequencer, type TestSpecification } from "vitest/node";

/**
 * The test files that take longest, those of about 10 s of processor time and more, by what they and their processes take, in the order in which they start: a long file that starts last keeps one core busy while the
 * other is idle. Files with a browser stand apart from each other, because two browsers at once are too much for two cores. `tests/suite.test.ts` sees to it that each is there.
 */
export const LONGEST: readonly string[] = [
  "tests/cli/publish/publish.test.ts",
  "tests/pages/rooms.test.ts",
  "tests/browser/page.test.ts",
  "tests/pages/commands.test.ts",
  "tests/render/sound/outside.test.ts",
  "tests/node/encoding/encodeSound.test.ts",
  "tests/browser/school.test.ts",
  "tests/render/sheet/published.test.ts",
  "tests/cli/render/render.test.ts",
  "tests/render/printed/notes.test.ts",
  "tests/curriculum/hostile.test.ts",
  "tests/browser/languages.test.ts",
  "tests/whole/invariants.property.test.ts",
  "tests/render/sheet/layOutSheet.test.ts",
  "tests/render/sheet/renderSheet.test.ts",
  "tests/formats/sound/mutations.property.test.ts",
  "tests/contracts/store.test.ts",
  "tests/listen/backing/findBacking.test.ts",
  "tests/node/batch/renderBatch.test.ts",
  "tests/store/faults.test.ts",
  "tests/cli/cautions.test.ts",
  "tests/store/traces.test.ts",
  "tests/cli/everyCommand.test.ts",
  "tests/cli/serve/serve.test.ts",
  "tests/whole/findings.property.test.ts",
  "tests/node/soundFile/openSoundFile.test.ts",
  "tests/cli/listen/listen.test.ts",
  "tests/listen/takeFromSound.test.ts",
  "tests/store/server.test.ts",
  "tests/reference/continuation.test.ts",
];

/** Starts before all others, so that the first result comes within seconds. */
const FIRST = "tests/layers.test.ts";

/** A quick file first, then the long ones, then the others, the largest first. */
export default class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const { root } = this.ctx.config;
    const weight = ({ moduleId }: TestSpecification): number => {
      const path = relative(root, moduleId).replaceAll("\\", "/");
      if (path === FIRST) return Number.POSITIVE_INFINITY;
      const place = LONGEST.indexOf(path);
      // Bytes of a file are far below a million.
      return place < 0 ? statSync(moduleId).size : 1e6 * (LONGEST.length - place);
    };
    return [...files].sort((a, b) => weight(b) - weight(a));
  }
}
