import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { forgetUnseen } from "../../lib/server/index.js";
import { type Served, servedSchool } from "./served.js";

let school: Served;
let teacher: ReturnType<Served["client"]>;

beforeEach(async () => {
  school = await servedSchool();
  teacher = school.client(await school.bring("avocet", { role: "teacher", className: "monday" }));
  await school.bring("tern", { role: "student", className: "monday" });
});
afterEach(() => school.close());

/** Goes on to a day, counted from the first, and looks for students of whom there is no sign. */
async function day(n: number): Promise<Awaited<ReturnType<typeof forgetUnseen>>> {
  school.clock = new Date(Date.UTC(2026, 8, 1, 9) + n * 86_400_000).toISOString();
  return forgetUnseen(school.school);
}

async function shown(): Promise<readonly object[]> {
  const { data } = await teacher.GET("/api/classes/{class}/students", { params: { path: { class: "monday" } } });
  return data!.items.map(({ name, erasedFrom }) => ({ name, erasedFrom }));
}

describe("a student of whom there is no sign", () => {
  test("is erased after the time they are kept, and not before their teachers could see it for 60 days", async () => {
    expect(await day(669)).toEqual({ warned: 0, erased: 0 });
    expect(await day(670)).toEqual({ warned: 1, erased: 0 });
    expect(await day(729)).toEqual({ warned: 0, erased: 0 });
    expect(await day(730)).toEqual({ warned: 0, erased: 1 });
    expect(await school.store.open({ student: "tern", curriculum: "quay" })).toBeUndefined();
    // The teacher stays.
    expect(await school.school.register.person("avocet")).toBeDefined();
  });

  test("is seen by their teacher with the day, and stays when they come again", async () => {
    await day(670);
    // Keys of the first day are not valid any more: both come in by new invitations.
    teacher = school.client(await school.bring("avocet", { role: "teacher", className: "monday" }));
    expect(await shown()).toEqual([{ name: "tern", erasedFrom: "2028-08-31" }]);
    await school.bring("tern", { role: "student", className: "monday" });
    expect(await shown()).toEqual([{ name: "tern", erasedFrom: undefined }]);
    expect(await day(731)).toEqual({ warned: 0, erased: 0 });
  });

  test("is told of first by a school that was not served for years", async () => {
    expect(await day(3000)).toEqual({ warned: 1, erased: 0 });
    expect(await day(3059)).toEqual({ warned: 0, erased: 0 });
    expect(await day(3060)).toEqual({ warned: 0, erased: 1 });
  });
});
