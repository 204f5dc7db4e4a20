import { sql } from "kysely";
import type { Database, Trx } from "./database.js";

/** Lets an invitation that was used or taken back say so until long after its time. */
export async function endsOfInvitations(trx: Trx): Promise<void> {
  await sql`alter table leeway_invitations add column ended text`.execute(trx);
}

/** Makes the tables of a school. The name of a person is in a column `student`, as everywhere, so that erasing finds it. */
export async function peopleAndClasses(trx: Trx, { nameType, clustered }: Database): Promise<void> {
  const name = sql.raw(nameType);
  const end = sql.raw(clustered);
  await sql`create table leeway_people (
    student ${name} not null primary key, role text not null, since text not null, seen text not null, paused text,
    warned text) ${end}`.execute(trx);
  await sql`create table leeway_classes (
    class ${name} not null primary key, curriculum ${name} not null, begins text, ends text) ${end}`.execute(trx);
  await sql`create table leeway_members (
    student ${name} not null, class ${name} not null, role text not null, primary key (student, class)) ${end}`.execute(
    trx,
  );
  await sql`create index leeway_members_by_class on leeway_members (class, role, student)`.execute(trx);
  await sql`create table leeway_invitations (
    student ${name} not null, digest ${name} not null, class ${name} not null, role text not null, until text not null,
    primary key (student, digest)) ${end}`.execute(trx);
  await sql`create unique index leeway_invitations_by_digest on leeway_invitations (digest)`.execute(trx);
  await sql`create table leeway_keys (
    student ${name} not null, digest ${name} not null, kind text not null, until text not null,
    primary key (student, digest)) ${end}`.execute(trx);
  await sql`create unique index leeway_keys_by_digest on leeway_keys (digest)`.execute(trx);
}
