import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import type { Problem } from "../../../lib/base/index.js";
import { classParts, pageParts } from "../../../lib/cli/page/pageParts.js";
import { schoolFiles } from "../../../lib/cli/serve/schoolFiles.js";
import { loadWords } from "../../../lib/words/index.js";
import { builtEntry } from "../../built.js";
import { drumRecording, recordedCourse } from "../../recording/recordedCourse.js";

// A recording of its own: one that another course made ready in this process would still be known.
const drums = drumRecording(94);
const kit = `{ recording: kit.wav, tempo: 94, starts: ${drums.starts.toFixed(6)} s }`;
const recorded = recordedCourse(kit, { "kit.wav": drums.wav }, "ladders: [ { tempo: [96, 108] } ]");
// Somebody saved another take over it since the course was read.
writeFileSync(join(recorded.folder, "kit.wav"), drums.wav.subarray(0, drums.wav.length / 2));
afterAll(() => recorded.remove());

async function filesOf(): Promise<{ told: readonly Problem[]; index: readonly object[] }> {
  builtEntry();
  const [words, parts, ofClass] = await Promise.all([loadWords("en"), pageParts("en"), classParts("en")]);
  if (!words.ok || !parts.ok || !ofClass.ok) throw new Error("no page was built");
  const told: Problem[] = [];
  const files = schoolFiles([recorded.course], {
    parts: parts.value,
    classParts: ofClass.value,
    words: words.value,
    fileOf: () => join(recorded.folder, "course.yaml"),
    tell: (problems) => void told.push(...problems),
  });
  const found = await files.find("/courses/1-recordings.json");
  const sheets = await files.find("/courses/1-sheets.json");
  files.close();
  expect(sheets).toBeDefined();
  return { told, index: JSON.parse(new TextDecoder().decode(found!.bytes)) };
}

describe("the files of a school whose course has recordings", () => {
  test("tell once of one that cannot be read, and the page is there without it", async () => {
    const { told, index } = await filesOf();
    expect(index).toEqual([]);
    const errors = told.filter(({ severity }) => severity === "error");
    expect(errors.map(({ code, where }) => [code, where.file])).toEqual([
      ["RECORDED_FILE_CHANGED", join(recorded.folder, "kit.wav")],
    ]);
  });
});
