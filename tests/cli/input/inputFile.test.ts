import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { problemsIn } from "../../../lib/base/index.js";
import { readBytes, readText } from "../../../lib/cli/input/inputFile.js";

const root = mkdtempSync(join(tmpdir(), "leeway-files-"));
afterAll(() => rmSync(root, { force: true, recursive: true }));
const made = (name: string, content: string | Uint8Array): string => {
  writeFileSync(join(root, name), content);
  return join(root, name);
};
const codes = (result: Parameters<typeof problemsIn>[0]): readonly string[] =>
  problemsIn(result).map((problem) => problem.code);

describe("readBytes()", () => {
  test("reads every byte, up to and including the limit", () => {
    const bytes = Uint8Array.from({ length: 200_001 }, (_, i) => i % 256);
    const file = made("whole.bin", bytes);
    expect(readBytes(file, 200_001)).toEqual({ ok: true, value: bytes, advice: [] });
    expect(codes(readBytes(file, 200_000))).toEqual(["INPUT_TOO_LARGE"]);
  });

  test("stops at the limit of what never ends", () => {
    expect(codes(readBytes("/dev/zero", 1_000_000))).toEqual(["INPUT_TOO_LARGE"]);
  });

  test("says what is wrong with what is not a file", () => {
    expect(codes(readBytes(join(root, "missing"), 10))).toEqual(["INPUT_NOT_FOUND"]);
    expect(codes(readBytes(join(made("a.txt", ""), "below"), 10))).toEqual(["INPUT_NOT_FOUND"]);
    expect(codes(readBytes(root, 10))).toEqual(["INPUT_IS_FOLDER"]);
    expect(codes(readBytes("a\0b", 10))).toEqual(["INPUT_UNREADABLE"]);
  });
});

describe("readText()", () => {
  test("takes UTF-8 with or without a byte order mark", () => {
    expect(readText(made("bom.txt", "\ufeffB♭"), 100)).toMatchObject({ ok: true, value: "B♭" });
    expect(readText(made("plain.txt", "B♭"), 100)).toMatchObject({ ok: true, value: "B♭" });
  });

  test("refuses other bytes", () => {
    expect(codes(readText(made("latin.txt", Uint8Array.of(0x42, 0xe9)), 100))).toEqual(["INPUT_NOT_TEXT"]);
    expect(codes(readText(made("utf16.txt", Uint8Array.of(0x41, 0, 0x42, 0)), 100))).toEqual(["INPUT_NOT_TEXT"]);
  });
});
