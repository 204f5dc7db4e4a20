import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { rungs, scoreOf } from "../../lib/drill/index.js";
import { readyRecordings } from "../../lib/node/index.js";
import { drumRecording, RATE, recordedCourse } from "../recording/recordedCourse.js";

const drums = drumRecording();

describe("readyRecordings()", () => {
  test("RECORDED_FILE_CHANGED: another sound under the same name is not played", async () => {
    const other = recordedCourse("{ recording: kit.wav, tempo: 96 }", { "kit.wav": drums.wav });
    writeFileSync(join(other.folder, "kit.wav"), drums.wav.slice(0, -4));
    const score = scoreOf(rungs(other.course.drills[0]!).at(2));
    const changed = await readyRecordings(score, { pathOf: () => join(other.folder, "kit.wav"), rate: RATE });
    expect(changed).toMatchObject({ ok: false, problems: [{ code: "RECORDED_FILE_CHANGED" }] });
    other.remove();
  });
});
