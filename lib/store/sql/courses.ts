import type { CourseText } from "../model.js";
import { type Database, inTransaction } from "./database.js";
import { digestOf } from "./digest.js";
import { keyText, nameOf } from "./keyText.js";
import type { CourseRow } from "./tables.js";

/** Keeps the text of a course, unless the same text was kept last for this edition. */
export function keepCourse(database: Database, course: CourseText): Promise<"kept" | "known" | "replaced"> {
  const names = Object.keys(course.files).sort();
  const files = JSON.stringify(names.map((name) => [name, Buffer.from(course.files[name]!).toString("base64")]));
  const row = {
    curriculum: keyText(course.curriculum),
    edition: keyText(course.edition),
    digest: digestOf(JSON.stringify([course.text, files])),
    file: keyText(course.file),
    // A text may contain characters that databases refuse, so it is stored as JSON; bytes are stored as base64.
    text: JSON.stringify(course.text),
    files,
  };
  return inTransaction(database, async (trx) => {
    // A row with the number 0, deleted at the end, serves as the lock for writers of this edition.
    const guard = { ...row, number: 0, text: "", files: "", digest: "" };
    await trx
      .insertInto("leeway_courses")
      .values(guard)
      .onConflict((conflict) => conflict.doNothing())
      .execute();
    const last = await trx
      .selectFrom("leeway_courses")
      .select(["number", "digest"])
      .where("curriculum", "=", row.curriculum)
      .where("edition", "=", row.edition)
      .orderBy("number", "desc")
      .limit(1)
      .executeTakeFirst();
    const number = last?.number ?? 0;
    if (number === 0 || last?.digest !== row.digest)
      await trx
        .insertInto("leeway_courses")
        .values({ ...row, number: number + 1 })
        .execute();
    await trx
      .deleteFrom("leeway_courses")
      .where("curriculum", "=", row.curriculum)
      .where("edition", "=", row.edition)
      .where("number", "=", 0)
      .execute();
    return number === 0 ? "kept" : last?.digest === row.digest ? "known" : "replaced";
  });
}

/** The text of an edition that was kept last; `undefined` when there is none. */
export async function course(database: Database, curriculum: string, edition: string): Promise<CourseText | undefined> {
  const row = await rowsOf(database, curriculum, edition).limit(1).executeTakeFirst();
  return row && textOf(row);
}

/** Every text that was kept for an edition, the last one first. */
export async function courses(database: Database, curriculum: string, edition: string): Promise<readonly CourseText[]> {
  return (await rowsOf(database, curriculum, edition).execute()).map(textOf);
}

function rowsOf({ db }: Database, curriculum: string, edition: string) {
  return db
    .selectFrom("leeway_courses")
    .selectAll()
    .where("curriculum", "=", keyText(curriculum))
    .where("edition", "=", keyText(edition))
    .where("number", ">", 0)
    .orderBy("number", "desc");
}

function textOf(row: CourseRow): CourseText {
  const files = (JSON.parse(row.files) as [string, string][]).map(
    ([name, bytes]) => [name, new Uint8Array(Buffer.from(bytes, "base64"))] as const,
  );
  return {
    curriculum: nameOf(row.curriculum),
    edition: nameOf(row.edition),
    file: nameOf(row.file),
    text: JSON.parse(row.text) as string,
    files: Object.fromEntries(files),
  };
}
