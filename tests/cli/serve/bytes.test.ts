import { copyFileSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { readCurriculum } from "../../../lib/curriculum/index.js";
import { rungs, settingsText } from "../../../lib/drill/index.js";
import { encodeWav } from "../../../lib/formats/sound/index.js";
import { scoreFor } from "../../../lib/practice/index.js";
import { strikes } from "../../listen/strikes.js";
import { playTo } from "../../practice/quay.js";
import { ROOT } from "../../sources.js";
import { type Running, startServe } from "./startServe.js";

const folder = mkdtempSync(join(tmpdir(), "leeway-bytes-"));
const [temporary, kept] = [join(folder, "temporary"), join(folder, "kept")];
const file = join(folder, "quay.yaml");
let school: Running;

beforeAll(async () => {
  copyFileSync(join(ROOT, "tests/cli/quay.yaml"), file);
  for (const each of [temporary, kept]) mkdirSync(each);
  const env = { TMPDIR: temporary, TEMP: temporary, TMP: temporary };
  school = await startServe([file, "--store", join(kept, "school.sqlite")], { folder, env });
});
afterAll(async () => {
  school.child.kill("SIGKILL");
  await school.ended;
  rmSync(folder, { recursive: true, force: true });
});

async function ask<T>(
  path: string,
  of: { token?: string; method?: string; body?: object; sound?: Buffer; cookie?: string } = {},
): Promise<T> {
  const { token, method = "POST", body, sound, cookie } = of;
  const answer = await fetch(`${school.address}/api/${path}`, {
    method,
    headers: {
      ...(token && { authorization: `Bearer ${token}` }),
      ...(cookie && { cookie }),
      ...(body && { "content-type": "application/json" }),
      ...(sound && { "content-type": "audio/wav" }),
    },
    ...(body && { body: JSON.stringify(body) }),
    ...(sound && { body: sound as BodyInit }),
  });
  if (!answer.ok) throw new Error(`${path}: ${answer.status} ${await answer.text()}`);
  const text = await answer.text();
  return (text === "" ? undefined : { ...JSON.parse(text), cookie: answer.headers.get("set-cookie") }) as T;
}

/** Everything that is on the disk of the store and of temporary files, and what was logged; by where it is. */
function places(): ReadonlyMap<string, Buffer> {
  const files = [kept, temporary].flatMap((place) =>
    readdirSync(place, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map(({ parentPath, name }) => [join(parentPath, name), readFileSync(join(parentPath, name))] as const),
  );
  return new Map([...files, ["the log", Buffer.from(school.log())]]);
}

/** Where some bytes are. */
function found(bytes: string | Buffer): readonly string[] {
  return [...places()].filter(([, held]) => held.includes(bytes)).map(([place]) => place);
}

test("no secret, and nothing of a recording, is on the disk or in the log at any time; a name is in the store alone, and nowhere once it is erased", async () => {
  const read = readCurriculum(readFileSync(file, "utf8"), { file, readFile: () => undefined });
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  const course = read.value;
  const secrets: string[] = [];
  const first = school.first!.split("/").at(-1)!;
  const { token } = await ask<{ token: string }>("invitations/accept", {
    body: { secret: first, as: "token", name: "turnstone-the-teacher" },
  });
  const inClass = `classes/${encodeURIComponent(course.title)}/invitations`;
  const invite = async (name: string) => ask<{ id: string; secret: string }>(inClass, { token, body: { name } });
  const used = await invite("oystercatcher-1");
  const open = await invite("oystercatcher-1");
  const revoked = await invite("sanderling-2");
  await ask(`${inClass}/${revoked.id}`, { token, method: "DELETE" });
  const tern = (await ask<{ token: string }>("invitations/accept", { body: { secret: used.secret, as: "token" } }))
    .token;
  const bySession = await ask<{ cookie: string }>("invitations/accept", {
    body: { secret: (await invite("sanderling-2")).secret, as: "session" },
  });
  const session = /leeway=([\w-]+)/.exec(bySession.cookie)![1]!;
  const further = (await ask<{ token: string }>("tokens", { token: tern })).token;
  secrets.push(first, token, used.secret, open.secret, revoked.secret, tern, session, further);
  expect(new Set(secrets).size).toBe(8);

  const rung = rungs(course.drills[0]!).at(0);
  const score = scoreFor(course, rung);
  const at = score.expected.map((note) => score.countIn + note.at);
  const samples = strikes(at, { rate: 44_100, seconds: at.at(-1)! + 60, noise: 0.01 });
  // Some ten megabytes: more than is held in memory, so that the rest of the way is by the sealed file.
  const sound = Buffer.from(encodeWav({ rate: 44_100, channels: [samples, samples] }, { samples: 24 }));
  expect(sound.length).toBeGreaterThan(12e6);
  const take = `students/oystercatcher-1/courses/${course.name}/takes`;
  const query = new URLSearchParams({ drill: course.drills[0]!.name, rung: settingsText(rung.settings), start: "0" });
  let isDone = false;
  const heard = ask<{ heard: { notes: number } }>(`${take}/by-sound?${query}`, {
    token: tern,
    method: "PUT",
    sound,
  }).finally(() => {
    isDone = true;
  });
  const piece = sound.subarray(5_000_000, 5_000_024);
  while (!isDone) {
    expect(found(piece)).toEqual([]);
    await new Promise((resolve) => setTimeout(resolve, 30));
  }
  expect((await heard).heard.notes).toBeGreaterThan(0);
  expect(sound.includes(piece)).toBe(true);
  expect(readdirSync(temporary)).toEqual([]);
  await ask(`${take}/by-hand`, {
    token: tern,
    method: "PUT",
    body: playTo(course, {
      id: "by-hand",
      drill: course.drills[0]!.name,
      rung: settingsText(rung.settings),
      how: "late",
    }),
  });
  await ask(`students/oystercatcher-1/courses/${course.name}/plan`, { token: tern, method: "GET" });
  await fetch(`${school.address}/api/students/oystercatcher-1/courses/none/plan?confirm=${tern}`, {
    headers: { authorization: `Bearer ${tern}x` },
  });

  for (const secret of secrets) expect([secret, found(secret)]).toEqual([secret, []]);
  expect(school.log()).toContain('"operation":"submit"');
  const inStore = found("oystercatcher-1");
  expect(inStore.length).toBeGreaterThan(0);
  expect(inStore.every((place) => place.startsWith(kept))).toBe(true);
  await ask("students/oystercatcher-1?confirm=oystercatcher-1", { token: tern, method: "DELETE" });
  expect(found("oystercatcher-1")).toEqual([]);
  expect(found("sanderling-2").every((place) => place.startsWith(kept))).toBe(true);
  expect(found("turnstone-the-teacher").every((place) => place.startsWith(kept))).toBe(true);
}, 120_000);
