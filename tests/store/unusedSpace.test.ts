import { copyFileSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { random } from "../../lib/base/index.js";
import type { Store } from "../../lib/store/index.js";
import { openSqlite } from "../../lib/store/sqlite/index.js";
import { enrolIn, submit } from "./material.js";
import { rawSqlite } from "./rawSqlite.js";

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "leeway-unused-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

async function opened(path: string): Promise<Store> {
  const store = await openSqlite(path, { create: true });
  if (!store.ok) throw new Error(JSON.stringify(store.problems));
  return store.value;
}

/** Enough students and rows for pages to be split and joined thousands of times. */
const STUDENTS = 300;
const ROWS = 24_000;
/** Students whose rows are deleted one after the other. */
const ERASED = 30;
const nameOf = (i: number): string => `Wjq${i}kxzvyq`;

/** Fills the tables of a store in the order in which many students practise: a row of one, then of another. */
async function fill(path: string, seed: string): Promise<void> {
  const chance = random(seed);
  const raw = await rawSqlite(path);
  for (const setting of ["synchronous = off", "secure_delete = on"]) raw.pragma(setting);
  const event = raw.prepare("insert into leeway_events values (?, 'quay', ?, ?, ?, ?)");
  const drill = raw.prepare(
    "insert into leeway_rungs values (?, 'quay', ?, 0, 0, ?) on conflict do update set body = excluded.body",
  );
  const summary = raw.prepare(
    "insert into leeway_summaries values (?, 'quay', '', ?) on conflict do update set body = excluded.body",
  );
  raw.exec("begin");
  for (let i = 0; i < STUDENTS; i++)
    raw.prepare("insert into leeway_journals values (?, 'quay', 1, 1, 1, '', '', null, null, null)").run([nameOf(i)]);
  const turns = new Map<string, number>();
  for (let row = 0; row < ROWS; row++) {
    const name = nameOf(Math.floor(chance.uniform() * STUDENTS));
    const turn = (turns.get(name) ?? 0) + 1;
    turns.set(name, turn);
    event.run([name, turn, `${chance.uniform()}`, `take:${name}-${turn}`, `${name} ${"b".repeat(180 + (turn % 50))}`]);
    drill.run([name, turn % 5, `${name} ${"r".repeat(turn * 10)}`]);
    summary.run([name, `${name} ${"s".repeat(300 + turn * 10)}`]);
  }
  raw.exec("commit");
  raw.close();
}

const has = (path: string, text: string): boolean =>
  [path, `${path}-wal`].some((each) => {
    try {
      return readFileSync(each).includes(text);
    } catch {
      return false;
    }
  });

/** Students of whom something is left when their rows are deleted and overwritten, and nothing more. */
async function leftBehind(path: string): Promise<readonly string[]> {
  const raw = await rawSqlite(path);
  raw.pragma("secure_delete = on");
  raw.pragma("foreign_keys = on");
  const left: string[] = [];
  for (let i = 0; i < ERASED; i++) {
    raw.prepare("delete from leeway_journals where student = ?").run([nameOf(i)]);
    raw.pragma("wal_checkpoint(truncate)");
    if (has(path, nameOf(i))) left.push(nameOf(i));
  }
  raw.close();
  return left;
}

test("erase() leaves no copy of a row that was moved from page to page, where deleting alone does, and changes little else", async () => {
  const [seed, path, copy] = [process.env.SEED ?? "quay", join(folder, "moved.sqlite"), join(folder, "copy.sqlite")];
  await (await opened(path)).close();
  await fill(path, seed);
  copyFileSync(path, copy);
  const left = await leftBehind(copy);
  // Without these there would be nothing to see.
  expect(left.length, `seed ${seed}`).toBeGreaterThan(0);
  const [store, other] = [await opened(path), await opened(path)];
  await enrolIn(other, "tern");
  const pages = (): readonly Buffer[] => {
    const bytes = readFileSync(path);
    return Array.from({ length: bytes.length / 4096 }, (_, i) => bytes.subarray(i * 4096, (i + 1) * 4096));
  };
  await store.erase(nameOf(ERASED));
  for (const [i, name] of left.entries()) {
    const before = pages();
    expect(await store.erase(name)).toMatchObject({ journals: 1 });
    expect(has(path, name), `${name}, seed ${seed}`).toBe(false);
    const after = pages();
    expect(before.filter((page, n) => !after[n]?.equals(page)).length / before.length).toBeLessThan(0.1);
    // Another program has pages in memory from before: what it writes next brings nothing back.
    await submit(other, "tern", { take: `t${i}` });
    expect(has(path, name), `${name}, seed ${seed}`).toBe(false);
  }
  for (const each of [store, other]) await each.close();
  const raw = await rawSqlite(path);
  expect(raw.values("pragma integrity_check")).toEqual(["ok"]);
  expect(raw.values("select count(distinct student) from leeway_events")).toEqual([STUDENTS + 1 - left.length - 1]);
  raw.close();
});
