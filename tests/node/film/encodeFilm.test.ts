import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { CAUTION } from "../../../lib/base/index.js";
import { encodeFilm, type FilmFormat, filmsHere } from "../../../lib/node/index.js";
import type { FilmDrawing } from "../../../lib/render/film/index.js";
import { labelOf } from "../../../lib/render/sound/index.js";
import { SMALL, type SmallFilm, smallFilm } from "../../render/film/smallFilm.js";
import { isThere } from "../../render/sound/programs.js";
import { type FilmRead, lagAt, markIn, readFilm } from "./readFilm.js";

const folder = mkdtempSync(join(tmpdir(), "leeway-films-"));
afterAll(() => rmSync(folder, { force: true, recursive: true }));

const ffmpeg = isThere("ffmpeg", "ffmpeg", "films, and what is in them") && (await filmsHere("mp4")).ok;

/** Bar 1 of the course's takes, seconds into the film: a bar of count-in at tempo 150 and a quarter of a second before it. */
const LEAD = 1.85;
const RATE = 30;
/** Silent are the second and the fourth bar of 1.6 s: from, and to, seconds of the take. */
const SILENT = [
  [1.6, 3.2],
  [4.8, 6.4],
] as const;
/** Frames of a silence: from the first that begins in it to the last, counted by hand: 3.45 s is in the middle of frame 103, so 104 is the first. */
const SILENT_FRAMES = [
  [104, 151],
  [200, 247],
] as const;

/** Onsets of the riff by hand, seconds at 0.4 s a beat: 1, 2, 2+, 3 | 1, 2, 3, 3+, 4. */
const ONSETS = [0, 0.4, 0.6, 0.8, 1.6, 2, 2.4, 2.6, 2.8];

/**
 * The left edges of the note heads in a drawn phrase, from left to right, pixels of the film: blobs that hold a disc of two thirds of a staff space, which neither
 * lines, stems, beams nor rests do. They are looked for in four times as many pixels, below the triangle of the mark and above the strip, from bar 1 on.
 */
function headsIn(drawing: FilmDrawing): readonly number[] {
  const by = 4;
  const { width, height } = { width: by * drawing.size.width, height: by * drawing.size.height };
  const file = join(folder, "phrase.svg");
  writeFileSync(file, drawing.phrase(1));
  const words = ["-v", "error", "-f", "svg_pipe", "-width", String(width), "-height", String(height), "-i", file];
  const gray = spawnSync("ffmpeg", [...words, "-frames:v", "1", "-f", "rawvideo", "-pix_fmt", "gray", "-"], {
    maxBuffer: 1e9,
  });
  const isDark = (x: number, y: number): boolean => gray.stdout[y * width + x]! < 100;
  const mark = drawing.mark({ at: 0, phase: "band" })!;
  const unit = (by * mark.half) / 6;
  // A staff is 7 mm high, 4 spaces.
  const radius = Math.round((((7 / 25.4) * 72) / 4) * unit * 0.33);
  const disc: (readonly [number, number])[] = [];
  for (let dx = -radius; dx <= radius; dx++)
    for (let dy = -radius; dy <= radius; dy++) if (Math.hypot(dx, dy) <= radius) disc.push([dx, dy]);
  const columns: number[] = [];
  const [top, bottom] = [Math.round(by * mark.tip), Math.round(by * mark.bottom - 22 * unit)];
  for (let x = Math.round(by * mark.x); x < width - radius; x++)
    for (let y = top; y < bottom; y++)
      if (isDark(x, y) && disc.every(([dx, dy]) => isDark(x + dx, y + dy))) {
        columns.push(x);
        break;
      }
  return columns.filter((x, i) => i === 0 || x - columns[i - 1]! > radius).map((x) => (x - radius) / by);
}

describe.runIf(ffmpeg).each(["mp4", "webm"] as const)("a film of the format %s", (as: FilmFormat) => {
  let student: SmallFilm;
  let demonstration: SmallFilm;
  let seen: FilmRead;
  let shown: FilmRead;
  beforeAll(async () => {
    student = await smallFilm(as, "play");
    demonstration = await smallFilm(as, "listen");
    seen = readFilm(student.bytes, as);
    shown = readFilm(demonstration.bytes, as);
  });

  test("has pictures of the size asked for, 30 a second, and sound, to the last frame as long", () => {
    const [video, audio] = ["video", "audio"].map((kind) =>
      seen.probed.streams.find(({ codec_type }) => codec_type === kind),
    );
    const codecs = as === "mp4" ? ["h264", "aac"] : ["vp9", "opus"];
    expect(video).toMatchObject({ ...SMALL, codec_name: codecs[0], avg_frame_rate: "30/1", pix_fmt: "yuv420p" });
    expect(audio).toMatchObject({ codec_name: codecs[1], sample_rate: "48000", channels: 2 });
    const seconds = student.sound.channels[0].length / student.sound.rate;
    expect(seen.frames).toHaveLength(Math.ceil(seconds * RATE));
    expect(Math.abs(Number(seen.probed.format.duration) - seconds)).toBeLessThan(1.5 / RATE);
  });

  test("has a chapter for the count-in, each phrase and the outro, and the cautions in its tags", () => {
    const ends = [0, LEAD, LEAD + 3.2, LEAD + 6.4];
    expect(seen.probed.chapters.map(({ tags }) => tags.title)).toEqual(["Count-in", "Phrase 1", "Phrase 2", "Outro"]);
    for (const [i, { start_time }] of seen.probed.chapters.entries())
      expect(Math.abs(Number(start_time) - ends[i]!)).toBeLessThan(0.002);
    expect(Object.values(seen.probed.format.tags)).toContain(CAUTION);
  });

  test("stands still in each silence of the student's version, for exactly its length, pixel for pixel", () => {
    for (const [first, last] of SILENT_FRAMES) {
      for (let i = first; i < last; i++)
        expect(seen.frames[i + 1]!.equals(seen.frames[i]!), `frame ${i + 1}`).toBe(true);
      expect(seen.frames[first - 1]!.equals(seen.frames[first]!), `before frame ${first}`).toBe(false);
      expect(seen.frames[last + 1]!.equals(seen.frames[last]!), `after frame ${last}`).toBe(false);
    }
  });

  test("goes on through the silences of a demonstration, frame by frame", () => {
    for (const [first, last] of SILENT_FRAMES)
      for (let i = first; i < last; i++)
        expect(shown.frames[i + 1]!.equals(shown.frames[i]!), `frame ${i}`).toBe(false);
  });

  test("has its mark at the note that sounds, within a frame, and at the edge of a silence in the student's version", () => {
    const { score, drawing } = demonstration;
    const rows = drawing.mark({ at: 0, phase: "band" })!;
    const left = headsIn(drawing);
    expect(left).toHaveLength(ONSETS.length);
    expect(score.expected.slice(0, left.length).map(({ at }) => at)).toEqual(ONSETS.map((at) => expect.closeTo(at, 6)));
    const placeIn = (film: FilmRead, seconds: number): number =>
      markIn(film, film.frames[Math.ceil((LEAD + seconds) * RATE - 1e-6)]!, rows);
    // A bar begins at its line, up to five points before its first head; elsewhere the mark is a point before a head. Half a pixel is its edge.
    const point = rows.half / 6;
    for (const phrase of [0, 1])
      for (const [i, at] of ONSETS.entries()) {
        // A frame later the mark is a thirtieth of a second further on its way to the next note.
        const way = i + 1 < left.length ? (left[i + 1]! - left[i]!) / ((ONSETS[i + 1]! - at) * RATE) : 4;
        const found = placeIn(shown, 3.2 * phrase + at) - left[i]!;
        expect(found, `note ${i + 1} of phrase ${phrase + 1}`).toBeGreaterThan(-(i === 4 ? 5 : 3) * point - 0.5);
        expect(found, `note ${i + 1} of phrase ${phrase + 1}`).toBeLessThan(way + 0.5);
      }
    // The fifth note is the first of the silent bar.
    for (const [from, to] of SILENT)
      for (const at of [from, (from + to) / 2, to - 0.04]) {
        const found = placeIn(seen, at) - left[4]!;
        expect(found).toBeGreaterThan(-5 * point);
        expect(found).toBeLessThan(0);
      }
  });

  test("sounds as rendered, to the sample, and its picture begins with it: count-in, onsets and landings", () => {
    for (const { start_time } of seen.probed.streams.filter(({ codec_type }) => codec_type !== "data"))
      expect(Number(start_time)).toBe(0);
    const { channels, downbeat } = student.sound;
    const rendered = Float32Array.from(channels[0], (value, i) => (value + channels[1][i]!) / 2);
    // Each click of the count-in, the first beats, and both landings.
    for (const at of [-1.6, -1.2, -0.8, -0.4, 0, 0.8, 3.2, 6.4])
      expect(lagAt(seen.heard, rendered, downbeat + Math.round(48_000 * at) - 240), `${at} s`).toBe(0);
    expect(downbeat / 48_000).toBeCloseTo(LEAD, 6);
  });
});

describe("films", () => {
  test("say what to install where there is no ffmpeg, and what the one that is there lacks: FILM_ENCODER_MISSING", async () => {
    const path = process.env.PATH;
    process.env.PATH = folder;
    try {
      expect(await filmsHere("mp4")).toMatchObject({
        ok: false,
        problems: [{ code: "FILM_ENCODER_MISSING", remedy: "install ffmpeg, or choose another format" }],
      });
      writeFileSync(join(folder, "ffmpeg"), "#!/bin/sh\necho ' V..... libvpx-vp9 x'\n", { mode: 0o755 });
      expect(await filmsHere("webm")).toMatchObject({
        ok: false,
        problems: [
          { code: "FILM_ENCODER_MISSING", message: expect.stringContaining("built without libopus, librsvg") },
        ],
      });
    } finally {
      process.env.PATH = path;
      rmSync(join(folder, "ffmpeg"), { force: true });
    }
  });

  test.runIf(ffmpeg)("that ffmpeg gives up on are a problem with what it said: FILM_ENCODING_FAILED", async () => {
    const { score, sound, drawing } = await smallFilm("webm", "play", { width: 64, height: 36 });
    const broken = { ...drawing, phrase: () => "<svg" };
    const label = labelOf(score);
    expect(await encodeFilm("mp4", { score, drawing: broken, sound, label, chapters: [], peak: -1 })).toMatchObject({
      ok: false,
      problems: [{ code: "FILM_ENCODING_FAILED", remedy: expect.stringContaining("run the same again") }],
    });
  });
});
