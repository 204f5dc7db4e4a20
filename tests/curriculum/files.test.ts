import { describe, expect, test } from "vitest";
import { filesOf, whyOutside } from "../../lib/curriculum/files.js";
import { LARGEST_FILE, LARGEST_FILES } from "../../lib/curriculum/limits.js";

/** A course whose files are nowhere. */
const NOTHING = { readFile: () => undefined, readRecording: () => undefined };

const pattern = (...files: readonly string[]) => ({
  riff: {
    meter: "4/4",
    bars: 1,
    parts: Object.fromEntries(
      files.map((file, i) => [`p${i}`, i % 2 === 0 ? { file } : { variants: { plain: { file } } }]),
    ),
  },
});

describe("filesOf()", () => {
  test.each([
    "/etc/passwd",
    "../secret.mid",
    "riffs/../../secret.mid",
    "riffs/..",
    "..",
    ".",
    "./riff.mid",
    "riffs//riff.mid",
    "riffs/",
    "riffs\\riff.mid",
    "..\\secret.mid",
    "C:/riff.mid",
    "c:riff.mid",
    "riff.mid:stream",
    "file:///etc/passwd",
    "https://quay.example/riff.mid",
    "//server/share/riff.mid",
    "~/riff.mid",
    "riff.mid\u0000.txt",
    "riffs/.. /riff.mid",
    "riffs/.../riff.mid",
    "riff\n.mid",
  ])("never asks for %j", (path) => {
    const asked: string[] = [];
    for (const position of [[path], ["ok.mid", path]]) {
      const { bytes, problems } = filesOf(pattern(...position), {
        ...NOTHING,
        readFile: (each) => {
          asked.push(each);
          return new Uint8Array(1);
        },
      });
      expect(problems.map((each) => each.code)).toEqual(["PATH_LEAVES_FOLDER"]);
      expect([...bytes.keys()]).not.toContain(path);
    }
    expect(asked).toEqual(["ok.mid"]);
  });

  test.each(["riff.mid", "riffs/first/riff.mid", "Möwe 1.musicxml", "..riff.mid", "riff..mid", "a.b/c..d"])(
    "%j stays below the folder",
    (path) => {
      expect(whyOutside(path)).toBeUndefined();
    },
  );

  test("asks for a file once, however often it is named", () => {
    const asked: string[] = [];
    const { bytes } = filesOf(pattern("a.mid", "a.mid", "b.mid"), {
      ...NOTHING,
      readFile: (path) => {
        asked.push(path);
        return new Uint8Array([1]);
      },
    });
    expect(asked).toEqual(["a.mid", "b.mid"]);
    expect([...bytes.keys()]).toEqual(["a.mid", "b.mid"]);
  });

  test("leaves out a file that is not there, for the pattern to say so", () => {
    const { bytes, problems } = filesOf(pattern("a.mid", "b.mid"), {
      ...NOTHING,
      readFile: (path) => (path === "a.mid" ? new Uint8Array() : undefined),
    });
    expect([[...bytes.keys()], problems]).toEqual([["a.mid"], []]);
  });

  test("a file beyond the limit is refused, and so are many files that are together", () => {
    const large = filesOf(pattern("a.mid"), { ...NOTHING, readFile: () => new Uint8Array(LARGEST_FILE + 1) });
    expect(large.problems.map((each) => each.code)).toEqual(["FILE_TOO_LARGE"]);
    const enough = LARGEST_FILES / LARGEST_FILE;
    const many = filesOf(pattern(...Array.from({ length: enough + 2 }, () => "a.mid")), {
      ...NOTHING,
      readFile: () => new Uint8Array(LARGEST_FILE),
    });
    expect(many.problems.map((each) => each.code)).toEqual(["FILE_TOO_LARGE", "FILE_TOO_LARGE"]);
    expect(many.problems[0]!.where.pointer).toBe(`/patterns/riff/parts/p${enough}/file`);
  });
});
