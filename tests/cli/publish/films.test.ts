import { existsSync, readFileSync, rmSync, statSync } from "node:fs";
import { join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { openCourse } from "../../../lib/cli/input/courseFile.js";
import { publishFilms } from "../../../lib/cli/publish/films.js";
import { openPublishFolder } from "../../../lib/cli/publish/folder.js";
import { publishPlan } from "../../../lib/cli/publish/plan.js";
import { filmsHere } from "../../../lib/node/index.js";
import { indexPage } from "../../../lib/page/index.js";
import { loadWords } from "../../../lib/words/index.js";
import { drumRecording, recordedCourse } from "../../recording/recordedCourse.js";
import { isThere } from "../../render/sound/programs.js";

const ffmpeg = isThere("ffmpeg", "ffmpeg", "films of a published course") && (await filmsHere("mp4")).ok;
const drums = drumRecording();
const kit = `{ recording: kit.wav, tempo: 96, starts: ${drums.starts.toFixed(6)} s }`;
const recorded = recordedCourse(kit, { "kit.wav": drums.wav }, "tempo: 120");
afterAll(() => recorded.remove());

describe.runIf(ffmpeg)("films of a published course", () => {
  test("are made once, kept as long as they are of the same, go on after an interruption, and stand on the index page", async () => {
    const out = join(recorded.folder, "published");
    const file = join(recorded.folder, "course.yaml");
    const course = openCourse(file, new Map());
    const words = await loadWords("en");
    if (!course.ok || !words.ok) throw new Error("not opened");
    const asked = { as: ["flac"], films: ["mp4"], out, paper: "a4" } as const;
    const plan = publishPlan(course.value, { file, sum: "", address: undefined }, asked);
    if (!plan.ok) throw new Error(plan.problems[0]!.message);
    /** As a new run would: what earlier ones made is read from the folder. */
    const films = async (signal = new AbortController().signal) => {
      const folder = await openPublishFolder(out);
      if (!folder.ok) throw new Error(folder.problems[0]!.message);
      const size = { width: 160, height: 90 };
      const onProgress = (): void => undefined;
      const made = await publishFilms(folder.value, plan.value, { words: words.value, signal, onProgress, size });
      return { made, count: folder.value.count };
    };
    const stopped = await films(AbortSignal.abort());
    expect(stopped.made).toMatchObject({ ok: false, problems: [{ code: "PUBLISHING_STOPPED" }] });
    const first = await films();
    if (!first.made.ok) throw new Error(first.made.problems[0]!.message);
    // Two mixes, each a film and its captions.
    expect(first.made.value.map(({ kind, mix }) => [kind, mix])).toEqual([
      ["film", "play"],
      ["film", "play"],
      ["film", "listen"],
      ["film", "listen"],
    ]);
    expect(first.count).toEqual({ made: 4, kept: 0 });
    const at = (index: number): string => join(out, first.made.ok ? first.made.value[index]!.file : "");
    const before = statSync(at(0)).mtimeMs;
    // A run that was killed after the first: the others are made, that one is not.
    rmSync(at(2));
    const again = await films();
    // Its captions are as they were, too.
    expect(again.count).toEqual({ made: 1, kept: 3 });
    expect(statSync(at(0)).mtimeMs).toBe(before);
    expect(existsSync(at(2))).toBe(true);
    expect(readFileSync(at(1), "utf8")).toContain("WEBVTT");
    const { drills } = plan.value;
    const page = indexPage({ course: course.value, drills, files: first.made.value, words: words.value });
    expect(page.match(/<video controls preload="none"/g)).toHaveLength(2);
    expect(page).toMatch(
      /<source src="films\/[^"]+\.mp4" type="video\/mp4"><track kind="captions" src="films\/[^"]+\.vtt"/,
    );
  }, 300_000);
});
