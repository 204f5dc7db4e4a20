import { mkdirSync, mkdtempSync, readdirSync, readFileSync, renameSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { enrol, planFor, reportClass, submit } from "../../lib/practice/index.js";
import { digestOf } from "../../lib/server/access/digestOf.js";
import { exportJournals, type Store } from "../../lib/store/index.js";
import { openPostgres } from "../../lib/store/postgres/index.js";
import { openSqlite } from "../../lib/store/sqlite/index.js";
import { playTo, quay } from "../practice/quay.js";
import { all } from "../store/material.js";
import { startPostgres } from "../store/postgresServer.js";
import { rawSqlite } from "../store/rawSqlite.js";

const course = quay();
const AT = "2026-09-01T08:00:00.000Z";
const STUDENTS = ["oystercatcher", "knot"] as const;

/** A school with two students who have played, planned, and have keys; an invitation is open. */
async function fill(store: Store): Promise<void> {
  const register = store.register!;
  await register.beginClass({ name: "monday", curriculum: course.name });
  for (const name of STUDENTS) {
    const invitation = { digest: digestOf(`invitation-${name}`), className: "monday", role: "student", name } as const;
    await register.invite({ ...invitation, until: "2040-01-01T00:00:00Z" });
    const found = (await register.invitation(invitation.digest, AT))!;
    const key = { digest: digestOf(`token-${name}`), name, kind: "token", until: "2040-01-01T00:00:00Z" } as const;
    expect(await register.accept(found, key, AT)).toBe("accepted");
    await enrol(store, name, { course, at: AT });
    const rung = (await store.open({ student: name, curriculum: course.name }))!.standing!.drills[0]!.rung!;
    for (const id of ["1", "2", "3"]) {
      const take = playTo(course, { id, drill: "steady", rung, how: id === "3" ? "late" : "in time" });
      await submit(store, name, take, { course, at: AT });
    }
    expect((await planFor(store, name, { course, today: "2026-09-02", minutes: 20, seed: 1 })).ok).toBe(true);
  }
  await register.invite({
    digest: digestOf("open"),
    className: "monday",
    role: "student",
    until: "2040-01-01T00:00:00Z",
  });
}

/** All that a store knows of people, as it would be told. */
async function told(store: Store): Promise<unknown> {
  const at = "2026-10-01T08:00:00Z";
  const report = await reportClass(store, {
    at,
    curriculum: course.name,
    students: STUDENTS,
    courseOf: async () => course,
  });
  return {
    journals: await all(exportJournals(store)),
    report,
    people: await store.register!.membersOf("monday", { role: "student", limit: 9 }),
  };
}

const holderOf = (store: Store, name: string) => store.register!.holderOf(digestOf(`token-${name}`), AT);

interface Rehearsal {
  readonly open: () => Promise<Store>;
  /** Makes a backup while the store is open. */
  readonly backUp: () => Promise<void>;
  /** Puts the backup in the place of the store, which is closed. */
  readonly restore: () => Promise<void>;
  /** Whether a name is anywhere in the files of the store. */
  readonly has: (name: string) => boolean;
}

/** Backed up, erased from, restored: what was there is there again, the erased student with it, who is then erased for good. */
async function rehearse({ open, backUp, restore, has }: Rehearsal): Promise<void> {
  const school = await open();
  await fill(school);
  const before = await told(school);
  await backUp();
  await school.erase("oystercatcher");
  expect(await holderOf(school, "oystercatcher")).toBeUndefined();
  expect(has("oystercatcher")).toBe(false);
  // What is done after the backup is not in it: a key and a link that were taken back, too.
  await school.register!.removeKey("knot", digestOf("token-knot"));
  await school.register!.revoke("monday", digestOf("open"));
  await school.close();
  await restore();
  const restored = await open();
  expect(await all(restored.verify())).toEqual([]);
  expect(await told(restored)).toEqual(before);
  expect(await holderOf(restored, "oystercatcher")).toBeDefined();
  expect(await holderOf(restored, "knot")).toBeDefined();
  expect(await restored.register!.invitation(digestOf("open"), AT)).toBeDefined();
  // Erased again: by the name alone, as nobody has a list of the erased.
  expect(await restored.erase("oystercatcher")).toMatchObject({ journals: 1 });
  expect(await restored.open({ student: "oystercatcher", curriculum: course.name })).toBeUndefined();
  expect(await holderOf(restored, "oystercatcher")).toBeUndefined();
  expect([has("oystercatcher"), has("knot")]).toEqual([false, true]);
  expect(await all(restored.verify())).toEqual([]);
  await restored.close();
}

function value<T>(
  opened: { readonly ok: true; readonly value: T } | { readonly ok: false; readonly problems: unknown },
): T {
  if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
  return opened.value;
}

describe("a backup that is restored", () => {
  test("has in SQLite what was there, and an erased student, until they are erased again", async () => {
    const folder = mkdtempSync(join(tmpdir(), "leeway-backup-"));
    const [place, copy] = [join(folder, "school", "school.sqlite"), join(folder, "copy.sqlite")];
    mkdirSync(join(folder, "school"));
    await rehearse({
      open: async () => value(await openSqlite(place, { create: true })),
      backUp: async () => {
        const raw = await rawSqlite(place);
        raw.exec(`vacuum into '${copy}'`);
        raw.close();
      },
      restore: async () => {
        rmSync(join(folder, "school"), { recursive: true });
        mkdirSync(join(folder, "school"));
        renameSync(copy, place);
      },
      has: (name) =>
        readdirSync(join(folder, "school")).some((file) => readFileSync(join(folder, "school", file)).includes(name)),
    });
    rmSync(folder, { recursive: true, force: true });
  });

  test("has in PostgreSQL what was there, and an erased student, until they are erased again (pg_dump, pg_restore)", async ({
    skip,
  }) => {
    const server = await startPostgres();
    if (server === undefined) return skip("PostgreSQL is not installed");
    try {
      let url = await server.database("school");
      await rehearse({
        open: async () => value(await openPostgres(url, { create: true })),
        backUp: async () => server.run("pg_dump", ["--format=custom", "--file=school.dump", `--dbname=${url}`]),
        restore: async () => {
          url = await server.database("restored");
          server.run("pg_restore", ["--exit-on-error", `--dbname=${url}`, "school.dump"]);
        },
        // The tables of the database that is in use; the log of the server and the dump are said to be out of reach.
        has: (name) => tablesHave(server.data, name),
      });
    } finally {
      server.stop();
    }
  });
});

/** Whether a file of the tables has a name; the write-ahead log is out of reach of an erasure, as the answer to it says. */
function tablesHave(data: string, name: string): boolean {
  const newest = readdirSync(join(data, "base"))
    .map(Number)
    .sort((a, b) => b - a)[0]!;
  const folder = join(data, "base", `${newest}`);
  return readdirSync(folder).some((file) => readFileSync(join(folder, file)).includes(name));
}
