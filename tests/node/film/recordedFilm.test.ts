import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { rungs, scoreOf } from "../../../lib/drill/index.js";
import { filmsHere, readyRecordings } from "../../../lib/node/index.js";
import { drumRecording, type RecordedCourse, recordedCourse } from "../../recording/recordedCourse.js";
import { filmOf, type SmallFilm } from "../../render/film/smallFilm.js";
import { isThere } from "../../render/sound/programs.js";
import { type FilmRead, lagAt, markIn, readFilm } from "./readFilm.js";

const FRAMES = 30;
const RATE = 48_000;
const ffmpeg = isThere("ffmpeg", "ffmpeg", "the film of a recorded course") && (await filmsHere("webm")).ok;

describe.runIf(ffmpeg).each(["mp4", "webm"] as const)("a film (%s) of a course whose drums were recorded", (as) => {
  const drums = drumRecording();
  let recorded: RecordedCourse;
  let film: SmallFilm;
  let seen: FilmRead;
  let rendered: Float32Array;
  beforeAll(async () => {
    const kit = `{ recording: kit.wav, tempo: 96, starts: ${drums.starts.toFixed(6)} s }`;
    recorded = recordedCourse(kit, { "kit.wav": drums.wav }, "tempo: 120");
    const [drill] = recorded.course.drills;
    const score = scoreOf(rungs(drill!).at(0), "play");
    const ready = await readyRecordings(score, { pathOf: (file) => join(recorded.folder, file), rate: RATE });
    if (!ready.ok) throw new Error(ready.problems[0]!.message);
    film = await filmOf(as, drill!, { mix: "play", recordings: ready.value });
    seen = readFilm(film.bytes, as);
    const [left, right] = film.sound.channels;
    rendered = Float32Array.from(left, (value, i) => (value + right[i]!) / 2);
  }, 300_000);
  afterAll(() => recorded?.remove());

  /** Frames of the film and samples of its sound for a stretch of the take, seconds. */
  const framesIn = (from: number, to: number): readonly [number, number] => {
    const lead = film.sound.downbeat / RATE;
    return [Math.ceil((lead + from) * FRAMES - 1e-4), Math.ceil((lead + to) * FRAMES - 1e-4)];
  };

  test("sounds as rendered, to the sample, and begins with its picture", () => {
    for (const { start_time } of seen.probed.streams.filter(({ codec_type }) => codec_type !== "data"))
      expect(Number(start_time)).toBe(0);
    // Strokes of the stretched recording: beats of the first phrase, and the landings.
    const landings = film.score.dropouts.flatMap(({ landing }) => (landing === null ? [] : [landing]));
    for (const at of [0, 0.5, 1, 2, ...landings])
      expect(lagAt(seen.heard, rendered, film.sound.downbeat + Math.round(RATE * at) - 240), `${at} s`).toBe(0);
  });

  test("has a silence as long in its sound as in its picture, within a frame", () => {
    const { downbeat } = film.sound;
    // What an encoder adds to silence lies 60 dB below full scale.
    const isSilent = (sample: number | undefined): boolean => Math.abs(sample ?? 0) < 0.001;
    for (const { from, to } of film.score.dropouts) {
      const [first, after] = framesIn(from, to);
      for (let i = first; i + 1 < after; i++)
        expect(seen.frames[i + 1]!.equals(seen.frames[i]!), `frame ${i}`).toBe(true);
      expect(seen.frames[first - 1]!.equals(seen.frames[first]!)).toBe(false);
      expect(seen.frames[after]!.equals(seen.frames[after + 1]!)).toBe(false);
      let begins = downbeat + Math.round(from * RATE);
      // Encoders smear a stroke by some ms; from there on nothing sounds until the landing.
      const ends = downbeat + Math.round(to * RATE);
      const settled = begins + Math.round(0.03 * RATE);
      while (begins < settled && !seen.heard.subarray(begins, begins + 480).every((each) => isSilent(each)))
        begins += 48;
      const silent = seen.heard.subarray(begins, ends - Math.round(0.03 * RATE));
      expect(Math.max(...silent.map(Math.abs))).toBeLessThan(0.001);
      const lasts = (ends - begins) / RATE;
      expect(Math.abs(lasts - (after - first) / FRAMES)).toBeLessThan(1 / FRAMES + 0.001);
      const landing = seen.heard.subarray(ends, ends + Math.round(0.05 * RATE));
      expect(Math.max(...landing.map(Math.abs))).toBeGreaterThan(0.02);
    }
  });

  test("has its mark where the band is, and the silent bar hatched under the riff, and no other", () => {
    const { drawing, score } = film;
    const rows = drawing.mark({ at: 0, phase: "band" })!;
    for (const at of [0.1, 0.6, 1.3, 2.4]) {
      const [frame] = framesIn(at, at);
      const mark = drawing.mark({ at: frame / FRAMES - film.sound.downbeat / RATE, phase: "band" })!;
      // On the first system, where its rows are.
      if (mark.top === rows.top) expect(Math.abs(markIn(seen, seen.frames[frame]!, rows) - mark.x)).toBeLessThan(1);
    }
    // The strip is nine units high and ends four above the lower end of the mark, which is six units wide to one side.
    const stripes = (from: number, to: number): number => {
      const [frame] = framesIn(0.1, 0.1);
      const picture = seen.frames[frame]!;
      const [left, right] = [from + 0.02, to - 0.02].map((at) => drawing.mark({ at, phase: "band" })!);
      const unit = left!.half / 6;
      const y = Math.round(left!.bottom - 8.5 * unit);
      let turns = 0;
      for (let x = Math.ceil(left!.x) + 2; x < right!.x - 2; x++) {
        const [a, b] = [picture[y * seen.width + x]!, picture[y * seen.width + x + 1]!];
        if (Math.abs(a - b) > 12) turns += 1;
      }
      return turns / (right!.x - left!.x);
    };
    const silence = score.dropouts[0]!;
    const bars = score.bars.filter(({ phrase }) => phrase === 1);
    const shares = bars.map(({ at }, i) => stripes(at, bars[i + 1]?.at ?? silence.to));
    const silent = bars.findIndex(({ at }) => Math.abs(at - silence.from) < 1e-6);
    expect(silent).toBeGreaterThan(0);
    for (const [i, share] of shares.entries())
      if (i !== silent) expect(shares[silent]!, JSON.stringify(shares)).toBeGreaterThan(1.5 * share);
  });
});
