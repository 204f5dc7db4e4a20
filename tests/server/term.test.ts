import { readdirSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { expect, test } from "vitest";
import { enrol, submit } from "../../lib/practice/index.js";
import { eventsOf, memoryStore } from "../../lib/store/index.js";
import { playTo } from "../practice/quay.js";
import { type Served, servedSchool } from "./served.js";

/** Students of the class, and weeks of two takes each: a term, in little. */
const STUDENTS = Array.from({ length: 12 }, (_, i) => `wader-${i}-of-the-quay`);
const WEEKS = 6;

/** The client of a student, and how they play. */
interface Player {
  readonly name: string;
  readonly client: ReturnType<Served["client"]>;
  readonly how: (week: number) => "in time" | "late";
}

test("a class goes through a term over HTTP as it would in one program, with answers that are lost and asked for again", async () => {
  const school = await servedSchool({ limits: { perMinute: 1e6 } });
  const teacher = school.client(await school.bring("avocet", { role: "teacher", className: "monday" }));
  const players: Player[] = [];
  for (const [i, name] of STUDENTS.entries()) {
    const client = school.client(await school.bring(name, { role: "student", className: "monday" }));
    players.push({ name, client, how: (week) => ((week + i) % 3 === 0 ? "late" : "in time") });
  }
  for (let week = 0; week < WEEKS; week++) {
    school.clock = new Date(Date.UTC(2026, 8, 1 + 7 * week, 15)).toISOString();
    // All of a class at once, as after a lesson.
    await Promise.all(players.map((player) => practise(school, player, week)));
  }
  const report = await teacher.GET("/api/classes/{class}/report", { params: { path: { class: "monday" } } });
  expect(report.data!.report.students).toHaveLength(STUDENTS.length);
  for (const player of players) await compareWithProgram(school, player);
  for await (const problem of school.store.verify()) expect(problem).toBeUndefined();

  // Nothing of an erased student is left in any file of the store.
  const [first, second] = STUDENTS as [string, string];
  expect(bytesOf(school).includes(first)).toBe(true);
  const sure = { params: { path: { student: first }, query: { confirm: first } } };
  const erased = await teacher.DELETE("/api/students/{student}", sure);
  expect(erased.data).toMatchObject({ journals: 1 });
  expect(erased.data!.elsewhere.length).toBeGreaterThan(0);
  expect(bytesOf(school).includes(first)).toBe(false);
  expect(bytesOf(school).includes(second)).toBe(true);
  expect(JSON.stringify(school.log)).not.toContain("wader");
  await school.close();
});

/** Two takes of the rung the student is on, the second sent twice at once: its first answer was lost. */
async function practise(school: Served, { name, client, how }: Player, week: number): Promise<void> {
  const path = { student: name, course: "quay" };
  for (const n of [1, 2]) {
    const { data: standing } = await client.GET("/api/students/{student}/courses/{course}/standing", {
      params: { path },
    });
    const open = standing!.drills.find(({ state }) => state === "open");
    if (open?.rung === undefined) return;
    const id = `week-${week}-${n}`;
    const body = playTo(school.course, { id, drill: open.drill, rung: open.rung, how: how(week) });
    const send = () =>
      client.PUT("/api/students/{student}/courses/{course}/takes/{take}", {
        params: { path: { ...path, take: id } },
        body: body as never,
      });
    const answers = await Promise.all(n === 1 ? [send()] : [send(), send()]);
    for (const { data } of answers) expect(data).toEqual(answers[0]!.data);
  }
}

/** The same takes in the same order, submitted in this program to a store in memory, lead to the same place by the same decisions. */
async function compareWithProgram(school: Served, { name }: Player): Promise<void> {
  const key = { student: name, curriculum: "quay" };
  const events = await eventsOf(school.store, key);
  const alone = memoryStore();
  await enrol(alone, name, { course: school.course, at: events[0]!.at });
  const taken = events.filter((event) => event.kind === "take assessed");
  expect(new Set(taken.map(({ take }) => take)).size).toBe(taken.length);
  for (const { take: id, drill, rung, verdict, at } of taken) {
    const how = verdict === "within" ? "in time" : "late";
    const take = playTo(school.course, { id, drill, rung, how });
    const submitted = await submit(alone, name, take, { course: school.course, at });
    expect(submitted.ok).toBe(true);
  }
  expect(await eventsOf(alone, key)).toEqual(events);
}

/** The bytes of all files of the store, one after the other. */
function bytesOf({ file }: Served): Buffer {
  const folder = dirname(file);
  return Buffer.concat(readdirSync(folder).map((name) => readFileSync(join(folder, name))));
}
