import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { AccessKey, Invitation, Register, Store } from "../../lib/store/index.js";
import { openPostgres } from "../../lib/store/postgres/index.js";
import { openSqlite } from "../../lib/store/sqlite/index.js";
import { type PostgresServer, startPostgres } from "../store/postgresServer.js";

const folder = mkdtempSync(join(tmpdir(), "leeway-register-"));
let server: PostgresServer | undefined;
const opened: Store[] = [];
let count = 0;

beforeAll(async () => {
  server = await startPostgres();
}, 60_000);

afterAll(async () => {
  for (const store of opened) await store.close();
  await server?.stop();
  rmSync(folder, { recursive: true, force: true });
});

/** An empty store with its register, in SQLite or in PostgreSQL; `undefined` where there is no server. */
async function fresh(kind: string): Promise<{ readonly store: Store; readonly register: Register } | undefined> {
  if (kind === "PostgreSQL" && server === undefined) return undefined;
  const name = `register${count++}`;
  const store =
    kind === "SQLite"
      ? await openSqlite(join(folder, `${name}.sqlite`), { create: true })
      : await openPostgres(await server!.database(name), { create: true, connections: 2 });
  if (!store.ok) throw new Error(JSON.stringify(store.problems));
  opened.push(store.value);
  return { store: store.value, register: store.value.register! };
}

const NOW = "2026-09-01T08:00:00Z";
const LATER = "2026-09-20T08:00:00Z";
const UNTIL = "2026-09-15T08:00:00Z";
const MONDAY = { name: "monday", curriculum: "quay" };

const invitation = (digest: string, more: Partial<Invitation> = {}): Invitation => ({
  digest,
  className: "monday",
  role: "student",
  until: UNTIL,
  ...more,
});
const key = (digest: string, name: string): AccessKey => ({ digest, name, kind: "session", until: UNTIL });

describe.each(["SQLite", "PostgreSQL"])("a register in %s", (kind) => {
  const law = (name: string, check: (of: { readonly store: Store; readonly register: Register }) => Promise<void>) =>
    test(name, async (context) => {
      const made = await fresh(kind);
      if (made === undefined) return context.skip("PostgreSQL is not installed");
      await check(made);
    });

  law("uses an invitation once, also by two at the same time", async ({ register }) => {
    await register.beginClass(MONDAY, "avocet");
    await register.invite(invitation("i1"));
    const both = await Promise.all([
      register.accept(invitation("i1"), key("k1", "tern"), NOW),
      register.accept(invitation("i1"), key("k2", "plover"), NOW),
    ]);
    expect([...both].sort()).toEqual(["accepted", "gone"]);
    expect(await register.membersOf("monday", { role: "student", limit: 9 })).toHaveLength(1);
    expect(await register.accept(invitation("i1"), key("k3", "knot"), NOW)).toBe("gone");
    expect(await register.person("knot")).toBeUndefined();
  });

  law("gives nobody the name or the role of another", async ({ register }) => {
    await register.beginClass(MONDAY, "avocet");
    for (const digest of ["i1", "i2", "i3"]) await register.invite(invitation(digest));
    await register.invite(invitation("i4", { name: "tern", role: "teacher" }));
    expect(await register.accept(invitation("i1"), key("k1", "tern"), NOW)).toBe("accepted");
    expect(await register.accept(invitation("i2"), key("k2", "tern"), NOW)).toBe("taken");
    expect(await register.accept(invitation("i4", { name: "tern", role: "teacher" }), key("k3", "tern"), NOW)).toBe(
      "taken",
    );
    // Neither invitation was used up.
    expect(await register.accept(invitation("i2"), key("k2", "plover"), NOW)).toBe("accepted");
    expect((await register.person("tern"))?.role).toBe("student");
    // Somebody whose keys are gone comes in again by an invitation to their name.
    await register.invite(invitation("i5", { name: "tern" }));
    expect(await register.accept(invitation("i5", { name: "tern" }), key("k4", "knot"), NOW)).toBe("taken");
    expect(await register.accept(invitation("i5", { name: "tern" }), key("k5", "tern"), NOW)).toBe("accepted");
  });

  law("knows keys and invitations until their time, and no longer", async ({ register }) => {
    await register.beginClass(MONDAY, "avocet");
    await register.invite(invitation("i1"));
    await register.invite(invitation("i2"));
    await register.accept(invitation("i1"), key("k1", "tern"), NOW);
    expect((await register.holderOf("k1", NOW))?.person.name).toBe("tern");
    expect(await register.holderOf("k1", LATER)).toBeUndefined();
    // The same moment, written with another offset.
    expect(await register.holderOf("k1", "2026-09-15T10:00:00+02:00")).toBeUndefined();
    expect(await register.holderOf("k1", "2026-09-15T09:59:59+02:00")).toBeDefined();
    expect(await register.invitation("i2", NOW)).toBeDefined();
    expect(await register.invitation("i2", LATER)).toBeUndefined();
    expect(await register.accept(invitation("i2"), key("k2", "knot"), LATER)).toBe("gone");
    expect([await register.wasAnybodySeen(NOW), await register.wasAnybodySeen(LATER)]).toEqual([true, false]);
    await register.removeExpired(LATER);
    expect(await register.keysOf("tern", NOW)).toEqual([]);
    expect(await register.invitationsTo("monday", LATER)).toEqual([]);
  });

  law("lists a class page by page, and takes invitations and keys back", async ({ register }) => {
    expect(await register.hasTeacher()).toBe(false);
    expect(await register.beginClass(MONDAY, "avocet")).toBe(true);
    expect(await register.beginClass(MONDAY, "other")).toBe(false);
    const names = ["ä", "b", "é", "z", "zz"];
    for (const name of names) {
      await register.invite(invitation(name, { name }));
      await register.accept(invitation(name, { name }), key(`k${name}`, name), NOW);
    }
    const pages: string[] = [];
    for (let after: string | undefined; ; ) {
      const some = await register.membersOf("monday", { role: "student", limit: 2, ...(after && { after }) });
      pages.push(...some.map((each) => each.name));
      if (some.length < 2) break;
      after = some.at(-1)!.name;
    }
    expect(pages).toEqual(["b", "z", "zz", "ä", "é"]);
    await register.invite(invitation("r"));
    expect(await register.revoke("tuesday", "r")).toBe(false);
    expect(await register.revoke("monday", "r")).toBe(true);
    expect(await register.accept(invitation("r"), key("kr", "r"), NOW)).toBe("gone");
    expect(await register.removeKey("b", "kz")).toBe(false);
    expect(await register.removeKey("z", "kz")).toBe(true);
    expect(await register.holderOf("kz", NOW)).toBeUndefined();
    expect(await register.leave("z", "monday")).toBe(true);
    expect(await register.classesOf("z")).toEqual([]);
    expect(await register.classesOf("zz")).toEqual([MONDAY]);
  });

  law("forgets a person whom the store erases, with their keys and invitations", async ({ store, register }) => {
    await register.beginClass(MONDAY, "avocet");
    await register.invite(invitation("i1", { name: "tern" }));
    await register.accept(invitation("i1", { name: "tern" }), key("k1", "tern"), NOW);
    await register.invite(invitation("i2", { name: "tern" }));
    await store.erase("tern");
    expect(await register.person("tern")).toBeUndefined();
    expect(await register.holderOf("k1", NOW)).toBeUndefined();
    expect(await register.invitation("i2", NOW)).toBeUndefined();
    expect(await register.membersOf("monday", { role: "student", limit: 9 })).toEqual([]);
  });

  law("says who was not there for long, until they come again", async ({ register }) => {
    await register.beginClass(MONDAY, "avocet");
    await register.invite(invitation("i1"));
    await register.accept(invitation("i1"), key("k1", "tern"), NOW);
    expect(await register.unseenSince(NOW)).toEqual([]);
    await register.markWarned(["tern"], LATER);
    expect((await register.unseenSince(LATER)).map(({ name, warned }) => [name, warned?.slice(0, 10)])).toEqual([
      ["tern", "2026-09-20"],
    ]);
    await register.markSeen("tern", LATER);
    await register.pause("tern", LATER);
    const { warned, paused } = (await register.person("tern"))!;
    expect([warned, paused?.slice(0, 10)]).toEqual([undefined, "2026-09-20"]);
    await register.pause("tern", undefined);
    expect((await register.person("tern"))!.paused).toBeUndefined();
  });
});
