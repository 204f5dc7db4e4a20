import { copyFileSync, existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { canonicalJson, foldJournal, journalText, readJournal, standingText } from "../../lib/progress/index.js";
import { checkEvent } from "../../lib/schema/index.js";
import { exportJournals, importJournals, memoryStore, type Store } from "../../lib/store/index.js";
import { digestOf } from "../../lib/store/sql/digest.js";
import { openSqlite } from "../../lib/store/sqlite/index.js";
import { all } from "./material.js";
import { programOf, run } from "./processes.js";
import { rawSqlite } from "./rawSqlite.js";
import { addStudents, JOURNALS, rowsOf, STANDINGS, writeStore } from "./version1/fixture.js";

let folder: string;
let count = 0;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "leeway-version1-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** A fresh copy of the file. */
function former(): string {
  const path = join(folder, `${count++}.sqlite`);
  writeStore(path);
  return path;
}

async function opened(path: string): Promise<Store> {
  const store = await openSqlite(path, { create: false, migrate: true });
  if (!store.ok) throw new Error(JSON.stringify(store.problems));
  return store.value;
}

const linesOf = (text: string): readonly string[] => text.trimEnd().split("\n");
const VALUES = linesOf(JOURNALS).map((line) => JSON.parse(line) as Record<string, unknown>);
const STUDENTS = [...new Set(VALUES.map(({ student }) => String(student)))];
const keyOf = (student: string) => ({ student, curriculum: "quay-harbour" });
const journalOf = (student: string): string =>
  linesOf(JOURNALS)
    .filter((line) => JSON.parse(line).student === student)
    .join("\n");
const given = (text: string) => linesOf(text).map((line, i) => ({ value: JSON.parse(line) as unknown, line: i + 1 }));
const exported = async (store: Store): Promise<string> => (await all(exportJournals(store))).join("");
const codes = async (store: Store): Promise<readonly string[]> => (await all(store.verify())).map(({ code }) => code);

describe("a journal of version 1", () => {
  test("is here with an event of every kind and a take of every verdict", () => {
    expect(VALUES.every(({ version }) => version === 1)).toBe(true);
    expect(new Set(VALUES.map(({ kind }) => kind))).toEqual(
      new Set([
        ...["enrolled", "drill opened", "take assessed", "advanced", "eased", "drill completed"],
        ...["edition changed", "set by teacher"],
      ]),
    );
    expect(new Set(VALUES.flatMap(({ verdict }) => verdict ?? []))).toEqual(new Set(["within", "beyond", "unclear"]));
  });

  test("is read as events of version 2, which fit the schema", () => {
    const { events, problems } = readJournal(JOURNALS);
    expect(problems).toEqual([]);
    for (const event of events) expect(checkEvent(event).ok, JSON.stringify(event)).toBe(true);
  });

  test("amounts to the standing it amounted to when it was written, but for the word and the version", () => {
    const before = linesOf(STANDINGS);
    expect(before).toHaveLength(STUDENTS.length);
    expect(STANDINGS).toContain('"by":"eased"');
    for (const line of before) {
      const { student } = JSON.parse(line) as { student: string };
      const { standing, problems } = foldJournal(journalOf(student));
      expect(problems).toEqual([]);
      expect(canonicalJson(standing)).toBe(
        canonicalJson({ ...JSON.parse(line.replaceAll('"by":"eased"', '"by":"gone back"')), version: 2 }),
      );
    }
  });

  test("written anew and read again gives the same bytes", () => {
    const once = journalText(readJournal(JOURNALS).events);
    expect(once).not.toMatch(/eased"|reentryMs|"version":1/);
    expect(journalText(readJournal(once).events)).toBe(once);
  });

  /**
   * The id of an event is the name by which credit, learning records and other devices know it, so it stays as it was written. The same step back
   * decided again has another id, as its kind is spelt otherwise; it has no effect twice, because the student is not on the rung any more.
   */
  test("keeps its ids; a step back that another device wrote of version 2 has no second effect", () => {
    const { events } = readJournal(journalOf("tern"));
    expect(events.map(({ id }) => id)).toEqual(VALUES.filter(({ student }) => student === "tern").map(({ id }) => id));
    const back = events.findIndex(({ kind }) => kind === "gone back");
    expect(events[back]!.id).toMatch(/^eased:/);
    const again = { ...events[back]!, id: "gone-back:0123456789abcdef" };
    const both = [...events.slice(0, back + 1), again, ...events.slice(back + 1)];
    const { standing, problems } = foldJournal(journalText(both));
    expect(problems.map(({ code }) => code)).toEqual(["DECISION_OVERTAKEN"]);
    expect(standing?.drills).toEqual(foldJournal(journalText(events)).standing?.drills);
  });
});

describe("a store that was written with events of version 1", () => {
  test("opens with the standings and events that its journals have when they are read today", async () => {
    const store = await opened(former());
    expect(await codes(store)).toEqual([]);
    for (const student of STUDENTS) {
      const standing = (await store.open(keyOf(student)))?.standing;
      expect(standing && standingText(standing)).toBe(standingText(foldJournal(journalOf(student)).standing!));
      expect(await all(store.events(keyOf(student)))).toEqual(readJournal(journalOf(student)).events);
    }
    await store.close();
  });

  test("knows the events of its journals, in either version, and adds none of them again", async () => {
    const store = await opened(former());
    const revision = (await store.open(keyOf("tern")))?.revision;
    const whole = { added: 0, known: VALUES.length, journals: STUDENTS.length, problems: [] };
    expect(await importJournals(store, given(JOURNALS))).toEqual(whole);
    expect(await importJournals(store, given(await exported(store)))).toEqual(whole);
    expect((await store.open(keyOf("tern")))?.revision).toBe(revision);
    const { events } = readJournal(journalOf("tern"));
    expect(await store.append(keyOf("tern"), events.slice(-2), 1)).toMatchObject({ outcome: "kept", added: 0 });
    await store.close();
  });

  test("gives the same bytes as a store into which its journals are imported today, and when it is opened again", async () => {
    const path = former();
    const store = await opened(path);
    const text = await exported(store);
    await store.close();
    const fresh = memoryStore();
    await importJournals(fresh, given(JOURNALS));
    expect(text).toBe(await exported(fresh));
    const again = await opened(path);
    expect(await exported(again)).toBe(text);
    await again.close();
  });

  test("takes events of version 1 from a device that was not brought up to date", async () => {
    const path = former();
    const last = `delete from leeway_events where student = 'tern' and turn = 24`;
    const raw = await rawSqlite(path);
    raw.exec(last);
    raw.close();
    const store = await opened(path);
    expect(await codes(store)).toEqual(["EVENTS_MISSING"]);
    await store.repair(keyOf("tern"));
    const { value } = given(journalOf("tern")).at(-1)!;
    expect(value).toMatchObject({ version: 1, kind: "eased", turn: 24 });
    expect(await store.merge(keyOf("tern"), [value])).toMatchObject({ added: 1, known: 0, problems: [] });
    expect(await store.merge(keyOf("tern"), [value])).toMatchObject({ added: 0, known: 1 });
    expect(await codes(store)).toEqual([]);
    await store.close();
  });

  test("has a copy of the file as it was beside it", async () => {
    const path = former();
    const before = await rowsOf(path, "leeway_events");
    await (await opened(path)).close();
    expect(await rowsOf(`${path}.before-version-3`, "leeway_events")).toEqual(before);
    expect((await rowsOf(path, "leeway_events")).every(({ body }) => body.includes('"version":2'))).toBe(true);
  });

  test("keeps an event that was altered as it was found, and still says so", async () => {
    const path = former();
    const raw = await rawSqlite(path);
    raw.exec(
      `update leeway_events set body = replace(body, '"within"', '"beyond"') where student = 'tern' and turn = 4`,
    );
    raw.close();
    const [altered] = (await rowsOf(path, "leeway_events")).filter(
      ({ student, turn }) => student === "tern" && turn === 4,
    );
    const store = await opened(path);
    expect(await codes(store)).toContain("EVENT_ALTERED");
    expect(await rowsOf(path, "leeway_events")).toContainEqual(altered);
    expect(await store.repair(keyOf("tern"))).toBe(1);
    expect(await codes(store)).toEqual([]);
    await store.close();
  });

  test("counts an event once that it had in both versions", async () => {
    const path = former();
    const event = readJournal(journalOf("gull")).events.at(-1)!;
    const body = canonicalJson(event);
    const raw = await rawSqlite(path);
    raw
      .prepare("insert into leeway_events values ('gull', 'quay-harbour', ?, ?, ?, ?)")
      .run([event.turn, digestOf(body), event.id, body]);
    raw.exec("update leeway_journals set events = events + 1 where student = 'gull'");
    raw.close();
    const store = await opened(path);
    expect(await codes(store)).toEqual([]);
    expect((await store.open(keyOf("gull")))?.events).toBe(readJournal(journalOf("gull")).events.length);
    await store.close();
  });

  test("loses nothing when the program is killed while it brings the store up to date", async () => {
    const program = await programOf("opener.ts");
    const start = former();
    await addStudents(start, 25);
    const whole = await opened(copied(start));
    const wanted = await exported(whole);
    await whole.close();
    const begun = performance.now();
    await run(program, [copied(start)]);
    const time = performance.now() - begun;
    const versions: string[] = [];
    for (let i = 0; i < 8; i++) {
      const path = copied(start);
      const { failed, err } = await run(program, [path], { killAfter: time / 2 ** i });
      expect({ failed, err }).toEqual({ failed: [], err: "" });
      versions.push((await rowsOf(path, "leeway_store"))[0]!.value);
      const store = await opened(path);
      expect(await codes(store)).toEqual([]);
      expect(await exported(store)).toBe(wanted);
      await store.close();
    }
    program.remove();
    // Some were killed before the new version was there, which is what this is about.
    expect(versions).toContain("2");
  }, 120_000);
});

/** A copy of a store's file that nobody has open. */
function copied(path: string): string {
  const copy = join(folder, `${count++}.sqlite`);
  expect(existsSync(`${path}-wal`)).toBe(false);
  copyFileSync(path, copy);
  return copy;
}
