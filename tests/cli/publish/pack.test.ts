import { spawnSync } from "node:child_process";
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { strToU8, unzipSync, zipSync } from "fflate";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { drumRecording, type RecordedCourse, recordedCourse } from "../../recording/recordedCourse.js";
import { saidBy, useFolder } from "../said.js";

useFolder("leeway-pack-");
let recorded: RecordedCourse;
beforeAll(() => {
  const drums = drumRecording();
  const kit = `{ recording: sound/kit.wav, tempo: 96, starts: ${drums.starts.toFixed(6)} s }`;
  const other = recordedCourse(kit.replace("sound/", ""), { "kit.wav": drums.wav });
  mkdirSync(join(other.folder, "sound"));
  writeFileSync(join(other.folder, "sound/kit.wav"), drums.wav);
  writeFileSync(join(other.folder, "course.yaml"), other.text.replace("kit.wav", "sound/kit.wav"));
  recorded = other;
});
afterAll(() => recorded.remove());

const course = (): string => join(recorded.folder, "course.yaml");
const packed = async (name: string): Promise<Record<string, Uint8Array>> => {
  const said = await saidBy(["pack", course(), "--out", name]);
  expect(said.status, said.err).toBe(0);
  return unzipSync(readFileSync(name));
};
const codes = ({ err }: { readonly err: string }): readonly string[] => err.match(/PACK_[A-Z_]+/g) ?? [];

describe("a course packed as one file", () => {
  test("comes out as it went in, and programs that know nothing of it vouch for its files", async () => {
    const files = await packed("course.zip");
    expect(Object.keys(files)).toEqual(["course.yaml", "sound/kit.wav", "SHA256SUMS"]);
    expect((await saidBy(["unpack", "course.zip", "--out", "there"])).status).toBe(0);
    for (const name of ["course.yaml", "sound/kit.wav"])
      expect(readFileSync(join("there", name)).equals(readFileSync(join(recorded.folder, name)))).toBe(true);
    // Python's zipfile (PKWARE APPNOTE) and GNU coreutils read it; neither is ours.
    const python =
      "import sys, zipfile; z = zipfile.ZipFile(sys.argv[1]); assert z.testzip() is None; z.extractall(sys.argv[2])";
    expect(spawnSync("python3", ["-c", python, "course.zip", "outside"]).status).toBe(0);
    const sums = spawnSync("sha256sum", ["--check", "--strict", "SHA256SUMS"], { cwd: "outside", encoding: "utf8" });
    expect(sums.stdout).toBe("course.yaml: OK\nsound/kit.wav: OK\n");
    // Once more into the same folder changes nothing; the same course gives the same bytes.
    expect((await saidBy(["unpack", "course.zip", "--out", "there"])).status).toBe(0);
    await packed("again.zip");
    expect(readFileSync("again.zip").equals(readFileSync("course.zip"))).toBe(true);
    const asked = await saidBy(["check", join("there", "course.yaml")]);
    expect(asked.status, asked.err).toBe(0);
  });

  test("PACK_FILE_CHANGED: a byte that changed on the way is noticed before anything is written", async () => {
    const files = await packed("course.zip");
    files["sound/kit.wav"]![5000]! ^= 1;
    writeFileSync("changed.zip", zipSync(files));
    const { "sound/kit.wav": _, ...less } = files;
    writeFileSync("less.zip", zipSync(less));
    for (const name of ["changed", "less"]) {
      const said = await saidBy(["unpack", `${name}.zip`, "--out", name]);
      expect(codes(said)).toEqual(["PACK_FILE_CHANGED"]);
      expect(said.status).toBe(1);
      expect(existsSync(name)).toBe(false);
    }
  });

  test.each([
    "../out.yaml",
    "/tmp/out.yaml",
    "a/../../out.yaml",
    "C:out.yaml",
    "a\\..\\out.yaml",
    "..",
    "a//b",
    "./a",
    "a\u0007",
  ])("PACK_PATH_LEAVES: %j is written nowhere", async (path) => {
    const sum = "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855";
    writeFileSync("stray.zip", zipSync({ [path]: new Uint8Array(0), SHA256SUMS: strToU8(`${sum}  ${path}\n`) }));
    const before = readdirSync(".");
    const said = await saidBy(["unpack", "stray.zip", "--out", "in/here"]);
    expect(codes(said)).toEqual(["PACK_PATH_LEAVES"]);
    expect(readdirSync(".")).toEqual(before);
  });

  test("files that nobody vouches for are not written", async () => {
    const files = await packed("course.zip");
    writeFileSync("more.zip", zipSync({ ...files, "more.sh": strToU8("rm") }));
    expect((await saidBy(["unpack", "more.zip", "--out", "more"])).status).toBe(0);
    expect(readdirSync("more").sort()).toEqual(["course.yaml", "sound"]);
  });

  test("PACK_UNREADABLE: other files, and half of one, are no packed course", async () => {
    await packed("course.zip");
    const bytes = readFileSync("course.zip");
    writeFileSync("half.zip", bytes.subarray(0, bytes.length / 2));
    writeFileSync("other.zip", zipSync({ "a.txt": strToU8("a") }));
    writeFileSync("list.zip", zipSync({ SHA256SUMS: strToU8("what else\n") }));
    for (const name of ["half.zip", "other.zip", "list.zip", course()])
      expect(codes(await saidBy(["unpack", name, "--out", "none"]))).toEqual(["PACK_UNREADABLE"]);
    // A file that says that it is 4 GB large is not believed.
    const huge = zipSync({ SHA256SUMS: strToU8(`${"0".repeat(64)}  a\n`), a: new Uint8Array(9) });
    const at = huge.length - 22 - 0x2e - 1;
    new DataView(huge.buffer).setUint32(at + 24, 0xfffffff0, true);
    writeFileSync("huge.zip", huge);
    expect(codes(await saidBy(["unpack", "huge.zip", "--out", "none"]))).toEqual(["PACK_UNREADABLE"]);
    expect(existsSync("none")).toBe(false);
  });

  test("PACK_FOLDER_TAKEN: another file of the same name is kept", async () => {
    await packed("course.zip");
    mkdirSync("taken");
    writeFileSync("taken/course.yaml", "mine");
    expect(codes(await saidBy(["unpack", "course.zip", "--out", "taken"]))).toEqual(["PACK_FOLDER_TAKEN"]);
    expect(readFileSync("taken/course.yaml", "utf8")).toBe("mine");
    expect(readdirSync("taken")).toEqual(["course.yaml"]);
  });

  test("a course with problems is not packed", async () => {
    writeFileSync("wrong.yaml", "curriculum: x\n");
    expect((await saidBy(["pack", "wrong.yaml", "--out", "wrong.zip"])).status).toBe(1);
    expect(existsSync("wrong.zip")).toBe(false);
  });
});
