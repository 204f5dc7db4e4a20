import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { readerBeside } from "../../../lib/cli/input/courseFile.js";

const root = mkdtempSync(join(tmpdir(), "leeway-folder-"));
const course = join(root, "course", "course.yaml");
mkdirSync(join(root, "course", "riffs"), { recursive: true });
writeFileSync(course, "");
writeFileSync(join(root, "course", "riffs", "inside.mid"), "inside");
writeFileSync(join(root, "course", "..dots.mid"), "dots");
writeFileSync(join(root, "outside.mid"), "outside");
symlinkSync(join(root, "outside.mid"), join(root, "course", "link-out.mid"));
symlinkSync(root, join(root, "course", "folder-out"));
symlinkSync(join(root, "course", "riffs", "inside.mid"), join(root, "course", "link-in.mid"));
symlinkSync("circle.mid", join(root, "course", "circle.mid"));
afterAll(() => rmSync(root, { force: true, recursive: true }));

describe("readerBeside()", () => {
  const read = readerBeside(course);

  test.each(["riffs/inside.mid", "./riffs/../riffs/inside.mid", "link-in.mid", "..dots.mid"])(
    "reads %s, which is in the folder",
    (path) => {
      expect(read(path)?.length).toBeGreaterThan(0);
    },
  );

  test.each([
    "../outside.mid",
    "riffs/../../outside.mid",
    "link-out.mid",
    "folder-out/outside.mid",
    join(root, "outside.mid"),
    join(root, "course", "riffs", "inside.mid"),
    "/etc/hostname",
    "riffs",
    ".",
    "",
    "circle.mid",
    "missing.mid",
    "riffs/inside.mid\0.txt",
  ])("does not read %j", (path) => {
    expect(read(path)).toBeUndefined();
  });
});
