import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { rungs, settingsText } from "../../lib/drill/index.js";
import { forgetUnseen } from "../../lib/server/index.js";
import { eventsOf } from "../../lib/store/index.js";
import { playTo } from "../practice/quay.js";
import { type Served, servedSchool } from "./served.js";

const AT_TERN = { student: "tern", course: "quay" };
let school: Served;
let tern: ReturnType<Served["client"]>;
let avocet: ReturnType<Served["client"]>;
beforeEach(async () => {
  school = await servedSchool();
  avocet = school.client(await school.bring("avocet", { role: "teacher", className: "monday" }));
  tern = school.client(await school.bring("tern", { role: "student", className: "monday" }));
});
afterEach(() => school.close());

const rungOf = (i: number): string => settingsText(rungs(school.course.drills[0]!).at(i).settings);
const send = (as: ReturnType<Served["client"]>, id: string, how: "in time" | "late" = "in time") =>
  as.PUT("/api/students/{student}/courses/{course}/takes/{take}", {
    params: { path: { ...AT_TERN, take: id } },
    body: playTo(school.course, { id, drill: "steady", rung: rungOf(0), how }) as never,
  });
const events = () => eventsOf(school.store, { student: "tern", curriculum: "quay" });

describe("on days that nobody plans for", () => {
  test("a proxy that sends a take again after its student is erased brings nothing back", async () => {
    const once = await send(tern, "late-post");
    expect(once.response.status).toBe(200);
    const erased = await tern.DELETE("/api/students/{student}", {
      params: { path: { student: "tern" }, query: { confirm: "tern" } },
    });
    expect(erased.response.status).toBe(200);
    expect((await send(tern, "late-post")).response.status).toBe(401);
    // Their teacher's app has it too, and does not know yet.
    expect((await send(avocet, "late-post")).response.status).toBe(404);
    expect(await events()).toEqual([]);
    expect(await school.school.register.person("tern")).toBeUndefined();
    // The erasure itself, sent again.
    const again = await tern.DELETE("/api/students/{student}", {
      params: { path: { student: "tern" }, query: { confirm: "tern" } },
    });
    expect(again.response.status).toBe(401);
  });

  test("a new student of an erased one's name begins with nothing, and the old keys do not open what is theirs", async () => {
    await send(tern, "first-life");
    await school.store.erase("tern");
    const next = school.client(await school.bring("tern", { role: "student", className: "monday" }));
    expect((await tern.GET("/api/me")).response.status).toBe(401);
    const { data } = await next.GET("/api/students/{student}/courses/{course}/report", { params: { path: AT_TERN } });
    expect(data!.students[0]!.courses[0]!.takes).toEqual({ within: 0, beyond: 0, unclear: 0 });
    expect(
      (await next.GET("/api/students/{student}/courses/{course}/plan", { params: { path: AT_TERN } })).data!.advice,
    ).toContainEqual(expect.stringMatching(/nothing|no take/i));
  });

  test("a clock that jumps years ahead erases nobody, and one that jumps back counts every take once, in the order they came", async () => {
    await send(tern, "before");
    school.clock = "2031-01-01T00:00:00.000Z";
    expect(await forgetUnseen(school.school)).toEqual({ warned: 1, erased: 0 });
    school.clock = "2026-09-02T08:00:00.000Z";
    expect(await forgetUnseen(school.school)).toEqual({ warned: 0, erased: 0 });
    // The student comes as always, and is not spoken of any more.
    expect((await send(tern, "after")).response.status).toBe(200);
    school.clock = "2020-01-01T00:00:00.000Z";
    expect((await send(tern, "long-ago")).response.status).toBe(200);
    expect((await send(tern, "before")).response.status).toBe(200);
    const takes = (await events()).flatMap((event) => (event.kind === "take assessed" ? [event.take] : []));
    expect(takes).toEqual(["before", "after", "long-ago"]);
    school.clock = "2026-09-03T08:00:00.000Z";
    const { data } = await avocet.GET("/api/classes/{class}/students", { params: { path: { class: "monday" } } });
    expect(data!.items).toMatchObject([{ name: "tern" }]);
    expect(data!.items[0]).not.toHaveProperty("erasedFrom");
    for await (const problem of school.store.verify()) expect(problem).toBeUndefined();
  });

  test("two teachers of one class who set a rung at once: one wish is kept, and the other teacher is told to look again", async () => {
    const dunlin = school.client(await school.bring("dunlin", { role: "teacher", className: "monday" }));
    const at = { params: { path: AT_TERN } };
    const seen = await Promise.all(
      [avocet, dunlin].map((who) => who.GET("/api/students/{student}/courses/{course}/standing", at)),
    );
    const [tag] = new Set(seen.map(({ response }) => response.headers.get("etag")!));
    const set = await Promise.all(
      [avocet, dunlin].map((who, i) =>
        who.POST("/api/students/{student}/courses/{course}/rung", {
          ...at,
          body: { drill: "steady", rung: rungOf(i + 1), reason: `as ${i} heard it` },
          headers: { "if-match": tag },
        }),
      ),
    );
    expect(set.map(({ response }) => response.status).sort()).toEqual([200, 412]);
    expect((await events()).filter(({ kind }) => kind === "set by teacher")).toHaveLength(1);
  });

  test("a student in two classes of one course has one journal, which both classes report; leaving one keeps it", async () => {
    const dunlin = school.client(await school.bring("dunlin", { role: "teacher", className: "friday" }));
    await school.bring("tern", { role: "student", className: "friday" });
    await send(tern, "once");
    const reports = await Promise.all(
      (
        [
          [avocet, "monday"],
          [dunlin, "friday"],
        ] as const
      ).map(async ([who, name]) => {
        const { data } = await who.GET("/api/classes/{class}/report", { params: { path: { class: name } } });
        return data!.report.students.map(({ student, courses }) => [student, courses[0]!.takes.within]);
      }),
    );
    expect(reports).toEqual([[["tern", 1]], [["tern", 1]]]);
    await dunlin.DELETE("/api/classes/{class}/students/{student}", {
      params: { path: { class: "friday", student: "tern" } },
    });
    expect(
      (await dunlin.GET("/api/students/{student}/courses/{course}/standing", { params: { path: AT_TERN } })).response
        .status,
    ).toBe(404);
    expect(
      (await avocet.GET("/api/students/{student}/courses/{course}/standing", { params: { path: AT_TERN } })).response
        .status,
    ).toBe(200);
    expect(await events()).not.toEqual([]);
  });
});
