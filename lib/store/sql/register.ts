import type { Acceptance, AccessKey, Invitation, Person, Register, Role, SchoolClass } from "../register/model.js";
import { type Database, inTransaction, type Trx } from "./database.js";
import { keyText, nameOf } from "./keyText.js";
import { retry } from "./retry.js";
import type { ClassRow, InvitationRow, KeyRow, PersonRow } from "./schoolRows.js";

/** Days for which it is known of an invitation whose time is over what became of it: our choice, a term, as old messages are opened again. */
const ENDS_KEPT_DAYS = 120;

/** The register in a database. Its tables must be migrated. Times are compared as text, so all are written by `utc`. */
export function sqlRegister(database: Database): Register {
  const { db, run, write } = handsOf(database);
  const person = async (name: string): Promise<Person | undefined> => {
    const row = await db
      .selectFrom("leeway_people")
      .selectAll()
      .where("student", "=", keyText(name))
      .executeTakeFirst();
    return row && personOf(row);
  };
  return {
    person: (name) => run(() => person(name)),
    hasTeacher: () =>
      run(async () => {
        const found = db.selectFrom("leeway_people").select("student").where("role", "=", "teacher").limit(1);
        return (await found.executeTakeFirst()) !== undefined;
      }),
    wasAnybodySeen: (since) =>
      run(async () => {
        const found = db.selectFrom("leeway_people").select("student").where("seen", ">=", utc(since)).limit(1);
        return (await found.executeTakeFirst()) !== undefined;
      }),
    markSeen: (name, at) =>
      write(async (db) => {
        const seen = db.updateTable("leeway_people").set({ seen: utc(at), warned: null });
        await seen.where("student", "=", keyText(name)).execute();
      }),
    pause: (name, at) =>
      write(async (db) => {
        const paused = db.updateTable("leeway_people").set({ paused: at === undefined ? null : utc(at) });
        await paused.where("student", "=", keyText(name)).execute();
      }),
    markWarned: (names, at) =>
      write(async (db) => {
        for (const name of names)
          await db
            .updateTable("leeway_people")
            .set({ warned: utc(at) })
            .where("student", "=", keyText(name))
            .execute();
      }),
    unseenSince: (at) =>
      run(async () => {
        const rows = db.selectFrom("leeway_people").selectAll().where("role", "=", "student");
        return (await rows.where("seen", "<", utc(at)).orderBy("student").execute()).map(personOf);
      }),
    ...classes(database),
    ...invitations(database),
    ...keys(database),
  };
}

/** Reading, and writing in a transaction that is durable whatever the default of the server. */
function handsOf(database: Database): {
  readonly db: Database["db"];
  run<T>(work: () => Promise<T>): Promise<T>;
  write<T>(work: (db: Trx) => Promise<T>): Promise<T>;
} {
  const run = <T>(work: () => Promise<T>): Promise<T> => retry(database, work);
  return { db: database.db, run, write: (work) => run(() => inTransaction(database, work)) };
}

function classes(
  database: Database,
): Pick<Register, "classCalled" | "beginClass" | "classesOf" | "membersOf" | "leave"> {
  const { db, run, write } = handsOf(database);
  return {
    classCalled: (name) =>
      run(async () => {
        const rows = db.selectFrom("leeway_classes").selectAll().where("class", "=", keyText(name));
        const row = await rows.executeTakeFirst();
        return row && classOf(row);
      }),
    beginClass: (made, teacher) =>
      write(async (db) => {
        const { numInsertedOrUpdatedRows } = await db
          .insertInto("leeway_classes")
          .values(classRow(made))
          .onConflict((conflict) => conflict.doNothing())
          .executeTakeFirst();
        if (Number(numInsertedOrUpdatedRows ?? 0) === 0) return false;
        if (teacher !== undefined) await join(db, { name: teacher, className: made.name, role: "teacher" });
        return true;
      }),
    classesOf: (name) =>
      run(async () => {
        const rows = await db
          .selectFrom("leeway_members as m")
          .innerJoin("leeway_classes as c", "c.class", "m.class")
          .selectAll("c")
          .where("m.student", "=", keyText(name))
          .orderBy("c.class")
          .execute();
        return rows.map(classOf);
      }),
    membersOf: (className, { role, after, limit }) =>
      run(async () => {
        let rows = db
          .selectFrom("leeway_members as m")
          .innerJoin("leeway_people as p", "p.student", "m.student")
          .selectAll("p")
          .where("m.class", "=", keyText(className))
          .where("m.role", "=", role);
        if (after !== undefined) rows = rows.where("m.student", ">", keyText(after));
        return (await rows.orderBy("m.student").limit(limit).execute()).map(personOf);
      }),
    leave: (name, className) =>
      write(async (db) => {
        const rows = db.deleteFrom("leeway_members").where("student", "=", keyText(name));
        const { numDeletedRows } = await rows.where("class", "=", keyText(className)).executeTakeFirst();
        return Number(numDeletedRows) > 0;
      }),
  };
}

function invitations(
  database: Database,
): Pick<Register, "invite" | "invitation" | "invitationEnd" | "accept" | "invitationsTo" | "revoke"> {
  const { db, run, write } = handsOf(database);
  return {
    invite: (invitation) =>
      write(async (db) => {
        const row = invitationRow(invitation);
        await db
          .insertInto("leeway_invitations")
          .values(row)
          .onConflict((conflict) => conflict.doNothing())
          .execute();
      }),
    invitation: (digest, at) =>
      run(async () => {
        const rows = db.selectFrom("leeway_invitations").selectAll().where("digest", "=", digest);
        const row = await rows.where("until", ">", utc(at)).where("ended", "is", null).executeTakeFirst();
        return row && invitationOf(row);
      }),
    invitationEnd: (digest, at) =>
      run(async () => {
        const rows = db.selectFrom("leeway_invitations").select(["until", "ended"]).where("digest", "=", digest);
        const row = await rows.executeTakeFirst();
        if (row === undefined) return undefined;
        if (row.ended === "used" || row.ended === "revoked") return row.ended;
        return row.until <= utc(at) ? "late" : undefined;
      }),
    accept: (invitation, key, at) => write((db) => accept(db, { invitation, key, at: utc(at) })),
    invitationsTo: (className, at) =>
      run(async () => {
        const rows = db.selectFrom("leeway_invitations").selectAll().where("class", "=", keyText(className));
        const open = rows.where("until", ">", utc(at)).where("ended", "is", null);
        return (await open.orderBy("until").execute()).map(invitationOf);
      }),
    revoke: (className, digest) =>
      write(async (db) => {
        const rows = db.updateTable("leeway_invitations").set({ ended: "revoked" }).where("digest", "=", digest);
        const open = rows.where("class", "=", keyText(className)).where("ended", "is", null);
        return Number((await open.executeTakeFirst()).numUpdatedRows) > 0;
      }),
  };
}

interface Accepting {
  readonly invitation: Invitation;
  readonly key: AccessKey;
  readonly at: string;
}

async function accept(trx: Trx, { invitation, key, at }: Accepting): Promise<Acceptance> {
  const { name } = key;
  const { className, role } = invitation;
  const isOther = invitation.name !== undefined && invitation.name !== name;
  // Of two who use one invitation at once, one ends it. It goes on where the name is not to be had.
  const row = trx.updateTable("leeway_invitations").where("digest", "=", invitation.digest);
  const used = row.set({ ended: "used" }).where("until", ">", at).where("ended", "is", null);
  if (Number((await used.executeTakeFirst()).numUpdatedRows) === 0) return "gone";
  const known = await trx
    .selectFrom("leeway_people")
    .select("role")
    .where("student", "=", keyText(name))
    .executeTakeFirst();
  // Somebody who is there already comes in again only by an invitation to their name, and never changes their role.
  if (isOther || (known !== undefined && (invitation.name === undefined || known.role !== role))) {
    await row.set({ ended: null }).execute();
    return "taken";
  }
  if (known === undefined)
    await trx
      .insertInto("leeway_people")
      .values({ student: keyText(name), role, since: at, seen: at, paused: null, warned: null })
      .execute();
  else
    await trx
      .updateTable("leeway_people")
      .set({ seen: at, warned: null })
      .where("student", "=", keyText(name))
      .execute();
  await join(trx, { name, className, role });
  await trx.insertInto("leeway_keys").values(keyRow(key)).execute();
  return "accepted";
}

async function join(
  trx: Trx,
  { name, className, role }: { readonly name: string; readonly className: string; readonly role: Role },
): Promise<void> {
  await trx
    .insertInto("leeway_members")
    .values({ student: keyText(name), class: keyText(className), role })
    .onConflict((conflict) => conflict.doNothing())
    .execute();
}

function keys(database: Database): Pick<Register, "holderOf" | "addKey" | "removeKey" | "keysOf" | "removeExpired"> {
  const { db, run, write } = handsOf(database);
  return {
    holderOf: (digest, at) =>
      run(async () => {
        const rows = db.selectFrom("leeway_keys").selectAll().where("digest", "=", digest);
        const key = await rows.where("until", ">", utc(at)).executeTakeFirst();
        if (key === undefined) return undefined;
        const found = db.selectFrom("leeway_people").selectAll().where("student", "=", key.student);
        const row = await found.executeTakeFirst();
        return row && { key: keyOf(key), person: personOf(row) };
      }),
    addKey: (key) =>
      write(async (db) => {
        await db
          .insertInto("leeway_keys")
          .values(keyRow(key))
          .onConflict((conflict) => conflict.doNothing())
          .execute();
      }),
    removeKey: (name, digest) =>
      write(async (db) => {
        const rows = db.deleteFrom("leeway_keys").where("student", "=", keyText(name)).where("digest", "=", digest);
        return Number((await rows.executeTakeFirst()).numDeletedRows) > 0;
      }),
    keysOf: (name, at) =>
      run(async () => {
        const rows = db.selectFrom("leeway_keys").selectAll().where("student", "=", keyText(name));
        return (await rows.where("until", ">", utc(at)).orderBy("digest").execute()).map(keyOf);
      }),
    removeExpired: (at) =>
      write(async (db) => {
        await db.deleteFrom("leeway_keys").where("until", "<=", utc(at)).execute();
        const long = new Date(Date.parse(at) - ENDS_KEPT_DAYS * 86_400_000).toISOString();
        await db.deleteFrom("leeway_invitations").where("until", "<=", long).execute();
      }),
  };
}

/** A time in UTC with milliseconds, so that times are in the order of their texts. */
function utc(time: string): string {
  return new Date(time).toISOString();
}

function personOf(row: PersonRow): Person {
  const { student, role, since, seen, paused, warned } = row;
  return {
    name: nameOf(student),
    role: role as Role,
    since,
    seen,
    ...(paused === null ? {} : { paused }),
    ...(warned === null ? {} : { warned }),
  };
}

function classOf({ class: name, curriculum, begins, ends }: ClassRow): SchoolClass {
  return {
    name: nameOf(name),
    curriculum: nameOf(curriculum),
    ...(begins === null ? {} : { from: begins }),
    ...(ends === null ? {} : { to: ends }),
  };
}

function classRow({ name, curriculum, from, to }: SchoolClass): ClassRow {
  return { class: keyText(name), curriculum: keyText(curriculum), begins: from ?? null, ends: to ?? null };
}

function invitationOf({ student, digest, class: name, role, until }: InvitationRow): Invitation {
  return {
    digest,
    className: nameOf(name),
    role: role as Role,
    until,
    ...(student === "" ? {} : { name: nameOf(student) }),
  };
}

function invitationRow({ digest, className, role, name = "", until }: Invitation): InvitationRow {
  return { student: keyText(name), digest, class: keyText(className), role, until: utc(until), ended: null };
}

function keyOf({ student, digest, kind, until }: KeyRow): AccessKey {
  return { digest, name: nameOf(student), kind: kind as AccessKey["kind"], until };
}

function keyRow({ digest, name, kind, until }: AccessKey): KeyRow {
  return { student: keyText(name), digest, kind, until: utc(until) };
}
