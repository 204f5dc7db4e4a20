import { spawnSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { builtEntry } from "../built.js";
import { doorFiles } from "../doors.js";
import { ROOT } from "../sources.js";
import { writing } from "./writing.js";

const PAGE = join(ROOT, "lib", "README.md");
/** A size on the page may be so far from what is measured, as a share: it says about how much, and not each byte. */
const ABOUT = 0.1;

/** Door -> kB at once, as `npm run size` prints them; they are printed here too. */
function measured(): ReadonlyMap<string, number> {
  builtEntry();
  const { stdout } = spawnSync(process.execPath, [join(ROOT, ".ci", "size.mjs")], { cwd: ROOT, encoding: "utf8" });
  console.log(stdout);
  return new Map(
    [...stdout.matchAll(/^(leeway\S*)\s+(\d+\.\d)/gm)].map(([, door, size]) => [door!, Number(size)] as const),
  );
}

test("the page of the library says about how large each door is", () => {
  const sizes = measured();
  expect(sizes.size).toBeGreaterThan(15);
  const before = readFileSync(PAGE, "utf8");
  const doors = [...doorFiles().keys()].map((door) => door.replace(".", "leeway"));
  expect(doors.filter((door) => !before.includes(`\`${door}\``))).toEqual([]);
  const wrong: string[] = [];
  const page = before.replaceAll(
    /^(\| `leeway[^|]*\|[^|]*\|[^|]*\| )([\d, ]*)( \|.*)$/gm,
    (row, start: string, said: string, end: string) => {
      const now = [...start.matchAll(/`(leeway[^`]*)`/g)].map(([, door]) => sizes.get(door!));
      const written = said.split(", ").map(Number);
      const isRight = now.every(
        (size, i) => size === undefined || Math.abs((written[i] ?? 0) - size) <= Math.max(1, ABOUT * size),
      );
      if (!isRight) wrong.push(row);
      const text = now.flatMap((size) => (size === undefined ? [] : [String(Math.round(size))])).join(", ");
      return isRight ? row : `${start}${text}${end}`;
    },
  );
  if (writing) writeFileSync(PAGE, page);
  else expect(wrong).toEqual([]);
});
