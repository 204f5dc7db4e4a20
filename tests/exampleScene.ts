import { randomUUID } from "node:crypto";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { readCurriculum } from "../lib/curriculum/index.js";
import { rungs, settingsText } from "../lib/drill/index.js";
import { planSession } from "../lib/plan/index.js";
import { enrol, type NamedTake, scoreFor, submit } from "../lib/practice/index.js";
import { openReport } from "../lib/report/index.js";
import { memoryStore } from "../lib/store/index.js";
import { openSqlite } from "../lib/store/sqlite/index.js";
import { ROOT } from "./sources.js";
import { all } from "./store/material.js";

const file = "quayside-first-course.yaml";

/**
 * What the examples of the doors take as given: the shipped course, a student who has played one take of its first rung, and what follows. Made anew for
 * each example, so that none depends on another; a school's store only where the example has one, as that is a file.
 */
export async function exampleScene(code: string): Promise<Readonly<Record<string, unknown>>> {
  const yamlText = readFileSync(join(ROOT, "curricula", file), "utf8");
  const read = readCurriculum(yamlText, { file, readFile: () => undefined });
  if (!read.ok) throw new Error(read.problems.map(({ message }) => message).join("\n"));
  const course = read.value;
  const next = { ...course, edition: "9.0.0" };
  const store = memoryStore();
  await enrol(store, "tern", { course, at: "2026-03-02T17:00:00Z" });
  const steady = course.drills[0]!;
  const first = rungs(steady).at(0);
  const played = scoreFor(course, first).expected.map(({ at }) => at - 0.015);
  const take: NamedTake = {
    id: "evening-1",
    drill: steady.name,
    rung: settingsText(first.settings),
    zero: "bar-1",
    onsets: played,
  };
  const submitted = await submit(store, "tern", take, { course, at: "2026-03-02T17:10:00Z" });
  if (!submitted.ok) throw new Error(JSON.stringify(submitted.problems));
  const events = await all(store.events({ student: "tern", curriculum: course.name }));
  const { standing, finding } = submitted.value;
  const halfBar = course.drills.find(({ name }) => name === "half-bar")!;
  const plan = planSession({ curriculum: course, standing, events, today: "2026-03-12", minutes: 20, seed: 1 });
  const report = openReport({ at: "2026-03-30T18:00:00Z" });
  report.add({ student: "tern", curriculum: course.name, events, courseOf: () => course });
  const stream = async function* () {
    yield { rate: 44_100, channels: [new Float32Array(44_100)] };
  };
  const school = /\bschool\b/.test(code) ? await openSqlite(`${randomUUID()}.sqlite`, { create: true }) : undefined;
  return {
    at: "2026-03-30T18:00:00Z",
    course,
    curriculum: course,
    drill: steady,
    event: events.at(-1),
    events,
    finding,
    halfBar,
    next,
    now: course,
    old: course,
    plan: plan.ok ? plan.value : undefined,
    report: report.close(),
    rung: first,
    school: school?.ok && school.value,
    score: scoreFor(course, first),
    standing,
    store,
    stream: stream(),
    take,
    text: events.map((event) => `${JSON.stringify(event)}\n`).join(""),
    yamlText,
  };
}
