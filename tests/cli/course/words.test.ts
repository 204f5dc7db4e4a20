import { expect, test } from "vitest";
import { INSTRUMENTS, PERCUSSION, SCALES } from "../../../lib/pattern/index.js";
import { saidBy } from "../said.js";

test.each([
  ["instruments", Object.keys(INSTRUMENTS)],
  ["scales", Object.keys(SCALES)],
  ["voices", [...PERCUSSION.keys()]],
])("leeway words %s lists every name a course may use, as text and as JSON", async (kind, names) => {
  const { out, status } = await saidBy(["words", kind]);
  expect(status).toBe(0);
  const rows = out.split("\n");
  for (const name of names) expect(rows.some((row) => row.includes(` ${name}`))).toBe(true);
  const entries = JSON.parse((await saidBy(["words", kind, "--json"])).out)[kind];
  const listed = entries.flatMap((each: { name: string; otherNames: string[] }) => [each.name, ...each.otherNames]);
  expect(names.filter((name) => !listed.includes(name))).toEqual([]);
});

test("leeway words says how an instrument sounds and how far it reaches", async () => {
  const { out } = await saidBy(["words", "instruments"]);
  expect(out).toMatch(/^ {2}alto saxophone +major sixth lower +Bb3 to F#6 +D4 to C6 +treble +66 +woodwind/m);
});
