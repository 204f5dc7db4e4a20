import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { unplayableOnPage } from "../../../lib/cli/page/unplayableOnPage.js";
import { drumRecording, type RecordedCourse, recordedCourse } from "../../recording/recordedCourse.js";
import { saidBy } from "../said.js";

const drums = drumRecording();
const kit = (beside = ""): string => `{ recording: kit.wav, tempo: 96, starts: ${drums.starts.toFixed(6)} s${beside} }`;
let alone: RecordedCourse;
let withNotes: RecordedCourse;
beforeAll(() => {
  alone = recordedCourse(kit(), { "kit.wav": drums.wav });
  withNotes = recordedCourse(kit(", voices: { snare: --X---X- | ... }"), { "kit.wav": drums.wav });
});
afterAll(() => {
  alone.remove();
  withNotes.remove();
});

describe("a page of a course with recordings", () => {
  test.each(["page", "serve", "publish"])(
    "PAGE_WITHOUT_RECORDING: %s refuses a part that it would leave silent",
    async (command) => {
      const out = join(alone.folder, "page");
      const words =
        command !== "serve" ? [command, "--out", out] : ["serve", "--store", join(alone.folder, "store.sqlite")];
      const said = await saidBy([words[0]!, join(alone.folder, "course.yaml"), ...words.slice(1)]);
      expect(said.status).not.toBe(0);
      expect(said.err + said.out).toContain("PAGE_WITHOUT_RECORDING");
    },
  );

  test("PAGE_PLAYS_NOTES: a page plays the notes beside a recording, and says that it does", () => {
    expect(unplayableOnPage(withNotes.course, "course.yaml")).toMatchObject([
      { code: "PAGE_PLAYS_NOTES", severity: "advice" },
    ]);
  });
});
