import { existsSync, readdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { unzipSync } from "fflate";
import { afterAll, beforeAll, expect, test } from "vitest";
import { decodeSound } from "../../../lib/formats/sound/index.js";
import { drumRecording, type RecordedCourse, recordedCourse } from "../../recording/recordedCourse.js";
import { run } from "./published.js";

let course: RecordedCourse;
beforeAll(() => {
  const drums = drumRecording();
  const kit = `{ recording: kit.wav, tempo: 96, starts: ${drums.starts.toFixed(6)} s, voices: { snare: --X---X- | ... } }`;
  course = recordedCourse(kit, { "kit.wav": drums.wav }, "tempo: 96");
});
afterAll(() => course.remove());

test("a dry run counts what the run then writes, file by file and byte by byte, the recordings of the practice page too", async () => {
  const out = join(course.folder, "counted");
  const words = ["publish", join(course.folder, "course.yaml"), "--out", out, "--as", "mp3,wav", "--json"];
  const dry = JSON.parse((await run([...words, "--dry-run"])).out) as {
    files: number;
    bytes: number;
    kinds: { kind: string; files: number; bytes: number }[];
  };
  expect(existsSync(out)).toBe(false);
  const real = JSON.parse((await run(words)).out) as { files: number; bytes: number };
  expect({ files: dry.files, bytes: dry.bytes }).toEqual({ files: real.files, bytes: real.bytes });
  // On the disk, but for the manifest, which tells of the others.
  const paths = readdirSync(out, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile());
  const written = paths.filter(({ name }) => name !== "publication.json");
  expect(dry.files).toBe(written.length);
  expect(dry.bytes).toBe(written.reduce((sum, { parentPath, name }) => sum + statSync(join(parentPath, name)).size, 0));
  const practice = written.filter(({ parentPath }) => parentPath.includes("/practice"));
  expect(practice.some(({ name }) => name.endsWith(".flac"))).toBe(true);
  expect(dry.kinds.reduce((sum, { files }) => sum + files, 0)).toBe(dry.files);
}, 300_000);

test("a published course sounds as its recordings do, and so does its practice page", async () => {
  const out = join(course.folder, "published");
  const said = await run(["publish", join(course.folder, "course.yaml"), "--out", out, "--as", "wav", "--mix", "play"]);
  expect(said.err).not.toContain("_NOT_GIVEN");
  expect(said.status, said.err).toBe(0);
  const { files } = JSON.parse(readFileSync(join(out, "publication.json"), "utf8")) as {
    files: { kind: string; file: string; downbeat?: number }[];
  };
  const [sound] = files.filter(({ kind }) => kind === "sound");
  const decoded = await decodeSound(readFileSync(join(out, sound!.file)));
  if (!decoded.ok) throw new Error(decoded.problems[0]!.message);
  const blocks = [];
  for await (const { channels } of decoded.value.sound) blocks.push(...channels[0]!);
  // The bar of hi-hat and kick that only the recording has: its strokes on beat 1, where the notes beside it have none.
  const beat = sound!.downbeat!;
  expect(Math.max(...blocks.slice(beat - 100, beat + 4000).map(Math.abs))).toBeGreaterThan(0.02);
});

test("the practice page with recordings in it is in the ZIP file of what sounds, once, and in none of an instrument's", async () => {
  const file = join(course.folder, "course.yaml");
  const text = readFileSync(file, "utf8");
  const both = join(course.folder, "both.yaml");
  writeFileSync(both, text.replace(/^patterns:/m, "players: [trumpet, { instrument: tuba, octave: -2 }]\npatterns:"));
  const out = join(course.folder, "zipped");
  const said = await run(["publish", both, "--out", out, "--as", "mp3", "--mix", "play"]);
  expect(said.status, said.err).toBe(0);
  const pages = readdirSync(join(out, "zips")).map((name) => {
    const held = Object.keys(unzipSync(readFileSync(join(out, "zips", name))));
    return [name, held.filter((each) => each.endsWith("/practice.html")).length];
  });
  expect(Object.fromEntries(pages)).toEqual({ "sound.zip": 1, "trumpet.zip": 0, "tuba.zip": 0 });
}, 300_000);
