import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { toNumber } from "../../../lib/base/index.js";
import { openCourse } from "../../../lib/cli/input/courseFile.js";
import { readMidiFile } from "../../../lib/formats/midi/index.js";
import { encodeWav } from "../../../lib/formats/sound/index.js";
import { midiNumber } from "../../../lib/pattern/index.js";
import { playedRiff } from "../../recording/playedRiff.js";
import { drumRecording } from "../../recording/recordedCourse.js";
import { SHIPPED } from "../../render/sheet/material.js";
import { saidBy } from "../said.js";

const folder = mkdtempSync(join(tmpdir(), "leeway-draft-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const drill = SHIPPED.flatMap(({ drills }) => drills).find(({ name }) => name === "half-bar")!;
const riff = playedRiff(drill, { instrument: "tenor saxophone" })!;
const take = join(folder, "riff.wav");
writeFileSync(take, encodeWav(riff.sound, { samples: "float" }));
const asked = ["--tempo", String(riff.tempo), "--for", "tenor saxophone", "--key", "D dorian"];

/** The notes of the student's part of a course: where, how long, and how high. */
function notesIn(file: string) {
  const course = openCourse(file, new Map());
  if (!course.ok) throw new Error(JSON.stringify(course.problems));
  expect(course.advice).toEqual([]);
  const { parts } = course.value.drills[0]!.pattern;
  return parts
    .find(({ name }) => name === "lead")!
    .variants[""]!.map(({ position, length, pitch, voice }) => ({
      position: toNumber(position),
      length: toNumber(length),
      pitch: pitch && midiNumber(pitch),
      ...(voice && { voice }),
    }));
}

describe("leeway draft", () => {
  test("writes a recorded riff as a course that reads back as the riff, and its sheet", async () => {
    const out = join(folder, "from-sound");
    const said = await saidBy(["draft", take, ...asked, "--out", out]);
    expect(said.status, said.err).toBe(0);
    expect(notesIn(join(out, "draft.yaml"))).toEqual(riff.notes);
    expect(existsSync(join(out, "riff", "riff-sheet_tenor-saxophone.pdf")), said.out).toBe(true);
    expect(said.out).toContain("17 notes in 4 bars of 4/4, on a grid of 1/16, at tempo 76.0");
    expect(said.out).toContain("Bar 1 is taken to begin with the first note.");
    expect(said.out).toMatch(/^ +1 +1 +D4 +1\/4 +100 % +99 % +\d\d %$/m);
    expect(said.out).toContain("an octave may be wrong");
    expect((await saidBy(["check", join(out, "draft.yaml")])).status).toBe(0);
  });

  test("says for programs where each note is, and how sure that is", async () => {
    const said = await saidBy(["draft", take, ...asked, "--starts", riff.starts.toFixed(3), "--json"]);
    const draft = JSON.parse(said.out) as {
      tempo: number;
      notes: { bar: number; beat: number; pitches: string[]; sure: Record<string, number> }[];
    };
    expect(draft.tempo).toBeCloseTo(76, 1);
    expect(draft.notes).toHaveLength(riff.notes.length);
    for (const { sure } of draft.notes) for (const share of Object.values(sure)) expect(share).toBeGreaterThan(0.5);
    expect(draft.notes[0]).toMatchObject({ bar: 1, beat: 1 });
  });

  test("takes the notes of a MIDI file", async () => {
    const made = join(folder, "midi");
    const words = ["render", "curricula/quayside-first-course.yaml", "half-bar", "1", "--mix", "listen", "--out", made];
    const rendered = await saidBy([...words, "--json"]);
    const { files } = JSON.parse(rendered.out) as { files: { file: string }[] };
    const file = join(made, files[0]!.file);
    const midi = readMidiFile(readFileSync(file));
    if (!midi.ok) throw new Error("no MIDI file");
    const track = 1 + midi.value.tracks.findIndex(({ name }) => name?.includes("lead"));
    const out = join(folder, "from-midi");
    // After a bar of count-in at tempo 76.
    const own = ["--starts", "3.158", "--track", String(track), "--out", out];
    const said = await saidBy(["draft", file, ...asked, ...own]);
    expect(said.status, said.err).toBe(0);
    const notes = notesIn(join(out, "draft.yaml"));
    expect(notes.slice(0, riff.notes.length).map(({ position, pitch }) => [position, pitch])).toEqual(
      riff.notes.map(({ position, pitch }) => [position, pitch]),
    );
    expect(notes.length).toBeGreaterThan(riff.notes.length);
  });

  test("writes the strokes of drums, and says that it does not know which", async () => {
    const drums = drumRecording();
    const file = join(folder, "kit.wav");
    writeFileSync(file, drums.wav);
    const out = join(folder, "from-drums");
    const starts = ["--starts", drums.starts.toFixed(3)];
    const said = await saidBy([
      "draft",
      file,
      "--tempo",
      "96",
      "--family",
      "percussive",
      "--grid",
      "1/8",
      ...starts,
      "--out",
      out,
    ]);
    expect(said.status, said.err).toBe(0);
    expect(said.out).toContain("all strokes are written as snare");
    const places = new Set(notesIn(join(out, "draft.yaml")).map(({ position }) => Math.round(8 * position)));
    const eighth = 60 / 96 / 2;
    expect(places).toEqual(new Set(drums.strokes.map((at) => Math.round(at / eighth))));
  });

  test("refuses what has no notes, and says what does not fit", async () => {
    const silent = join(folder, "silent.wav");
    const none = new Float32Array(88_200);
    writeFileSync(silent, encodeWav({ rate: 44100, channels: [none, none] }));
    const refused = await saidBy(["draft", silent, ...asked, "--json"]);
    expect(JSON.parse(refused.out).problems[0]).toMatchObject({ code: "DRAFT_WITHOUT_NOTES" });
    const slow = await saidBy(["draft", take, "--tempo", "78.5", "--for", "tenor saxophone"]);
    expect(slow.err).toContain("DRAFT_TEMPO_DIFFERS");
    expect(slow.err).toContain("it was played at 76.0 and not at 78.5");
    const swung = playedRiff(SHIPPED.flatMap(({ drills }) => drills).find(({ pattern }) => pattern.swing)!)!;
    const off = join(folder, "swung.wav");
    writeFileSync(off, encodeWav(swung.sound, { samples: "float" }));
    const said = await saidBy(["draft", off, "--tempo", String(swung.tempo), "--family", "blown"]);
    expect(said.err).toContain("DRAFT_OFF_GRID");
    expect(said.err).toContain("try a longer value (--grid 1/8)");
    for (const wrong of [
      ["--grid", "1/4", "--meter", "6/8"],
      ["--tempo", "9000"],
    ])
      expect(await saidBy(["draft", take, ...asked, ...wrong])).toMatchObject({ status: 2 });
    expect(await saidBy(["draft", take, "--tempo", "76", "--for", "foghorn"])).toMatchObject({ status: 1 });
  });
});
