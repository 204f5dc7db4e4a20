import { afterAll, beforeAll, expect, test } from "vitest";
import { settingsText } from "../../lib/drill/index.js";
import { openStudent } from "../../lib/practice/index.js";
import { openSchool, type ServedSchool, serveSchool } from "../../lib/server/index.js";
import { eventsOf, type Store } from "../../lib/store/index.js";
import { openSqlite } from "../../lib/store/sqlite/index.js";
import { playTo, type QuaySketch, quay, quayText } from "../practice/quay.js";
import { type Served, servedSchool } from "./served.js";

const NEXT: QuaySketch = { edition: "1.1.0", first: "calm", formerly: "steady", tempi: "{ from: 94, to: 106, by: 4 }" };
const KEY = { student: "tern", curriculum: "quay" };

/** A server that was started before the new edition, and one that was started with it, each with its own connection to one store. */
let stale: Served;
let fresh: ServedSchool;
let second: Store;
let token = "";
let teacher = "";

beforeAll(async () => {
  stale = await servedSchool({ limits: { perMinute: 1e6 } });
  token = await stale.bring("tern", { role: "student", className: "monday" });
  teacher = await stale.bring("avocet", { role: "teacher", className: "monday" });
  const opened = await openSqlite(stale.file, { create: false });
  if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
  second = opened.value;
  for (const sketch of [{}, NEXT]) {
    const { name: curriculum, edition } = quay(sketch);
    await second.keepCourse({ curriculum, edition, file: "quay.yaml", text: quayText(sketch), files: {} });
  }
  const now = (): Date => new Date("2026-09-01T08:30:00.000Z");
  fresh = await serveSchool(openSchool({ store: second, courses: [quay(NEXT)], consent: "Kept.", now }), {
    version: "0.0.0",
  });
});
afterAll(async () => {
  await fresh.close();
  await second.close();
  await stale.close();
});

const ask = (address: string, method: string, path: string, body?: object, who = token): Promise<Response> =>
  fetch(`${address}/api/students/tern/courses/quay/${path}`, {
    method,
    headers: { authorization: `Bearer ${who}`, "content-type": "application/json" },
    ...(body && { body: JSON.stringify(body) }),
  });
/** The take of what the server of this edition has on the stand. */
async function playAt(sketch: QuaySketch, id: string): Promise<object> {
  const course = quay(sketch);
  const opened = await openStudent(second, "tern", { course, before: quay(sketch === NEXT ? {} : NEXT) });
  if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
  const { drill, rung } = opened.value.open[0]!;
  const from = quay(drill.name === "calm" ? NEXT : {});
  return playTo(from, { id, drill: drill.name, rung: settingsText(rung.settings), how: "in time" });
}
const editionNow = async (): Promise<string> => (await second.open(KEY))!.standing!.edition;

test("of two servers on one store the one that has the earlier edition moves nobody back, and loses no take", async () => {
  const sent: string[] = [];
  const send = async (address: string, id: string, take: object): Promise<void> => {
    const answer = await ask(address, "PUT", `takes/${id}`, take);
    expect([id, answer.status, answer.ok ? "" : await answer.text()]).toEqual([id, 200, ""]);
    sent.push(id);
  };
  const waited = playTo(quay(), {
    id: "waited",
    drill: "steady",
    rung: "dropout=1 bar,parts=kit,tempo=90",
    how: "in time",
  });
  await send(stale.address, "old", await playAt({}, "old"));
  expect(await editionNow()).toBe("1.0.0");
  await send(fresh.address, "new", await playAt(NEXT, "new"));
  expect(await editionNow()).toBe("1.1.0");
  await send(stale.address, "stale", await playAt({}, "stale"));
  // A take of a rung that only the earlier edition has, which waited on a phone.
  await send(stale.address, "waited", waited);
  await send(fresh.address, "newer", await playAt(NEXT, "newer"));
  await Promise.all(
    Array.from({ length: 6 }, async (_, n) => {
      const id = `raced-${n}`;
      await send(n % 2 === 0 ? stale.address : fresh.address, id, await playAt(NEXT, id));
    }),
  );
  expect(await editionNow()).toBe("1.1.0");
  const events = await eventsOf(second, KEY);
  expect(events.filter(({ kind }) => kind === "edition changed")).toHaveLength(1);
  const counted = events.flatMap((event) => (event.kind === "take assessed" ? [event.take] : []));
  expect(counted.sort()).toEqual(sent.sort());
});

test("whatever else the earlier one is asked is answered by the edition its student is in", async () => {
  const standing = await ask(stale.address, "GET", "standing");
  expect(await standing.json()).toMatchObject({ edition: "1.1.0" });
  expect(await (await ask(stale.address, "GET", "plan")).json()).toMatchObject({ edition: "1.1.0" });
  const put = { drill: "later", rung: "dropout=1 bar,parts=kit,tempo=96", reason: "knows it" };
  const placed = await ask(stale.address, "POST", "rung", put, teacher);
  expect(await placed.json()).toMatchObject({ edition: "1.1.0" });
  expect(await editionNow()).toBe("1.1.0");
});
