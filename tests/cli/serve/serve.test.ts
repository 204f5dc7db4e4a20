import type { ChildProcess } from "node:child_process";
import { copyFileSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { readCurriculum } from "../../../lib/curriculum/index.js";
import { eventsOf } from "../../../lib/store/index.js";
import { openSqlite } from "../../../lib/store/sqlite/index.js";
import { playTo } from "../../practice/quay.js";
import { sample } from "../../samples.js";
import { ROOT } from "../../sources.js";
import { saidBy } from "../said.js";
import { type Running, startServe } from "./startServe.js";

const folder = mkdtempSync(join(tmpdir(), "leeway-serve-"));
const file = join(folder, "quay.yaml");
copyFileSync(join(ROOT, "tests/cli/quay.yaml"), file);
const running = new Set<ChildProcess>();

afterAll(() => {
  for (const child of running) child.kill("SIGKILL");
  rmSync(folder, { recursive: true, force: true });
});

async function start(store: string): Promise<Running> {
  const started = await startServe([file, "--store", store], { folder });
  running.add(started.child);
  return started;
}

async function post(address: string, path: string, body: object, token?: string): Promise<Record<string, string>> {
  const authorization = token === undefined ? {} : { authorization: `Bearer ${token}` };
  const headers = { "content-type": "application/json", ...authorization };
  const answer = await fetch(`${address}${path}`, { method: "POST", headers, body: JSON.stringify(body) });
  return (await answer.json()) as Record<string, string>;
}

describe("leeway serve", () => {
  test("serves the page and the API, lets the first teacher in once, and ends when told", async () => {
    const first = await start("school.sqlite");
    const secret = /\/class\/#\/join\/(\S+)/.exec(first.said)![1]!;
    const welcome = await post(first.address, "/api/invitations/accept", { secret, as: "token", name: "avocet" });
    expect(welcome).toMatchObject({ name: "avocet", role: "teacher" });
    const page = await fetch(first.address);
    expect(page.headers.get("content-type")).toBe("text/html; charset=utf-8");
    expect(await page.text()).toContain("app.js");
    expect((await fetch(`${first.address}/app.js`)).headers.get("content-type")).toBe("text/javascript; charset=utf-8");
    expect((await fetch(`${first.address}/openapi.json`)).status).toBe(200);
    // The link that is printed is a page; what is engraved is waited for.
    const ofClass = await fetch(`${first.address}/class/`);
    expect([ofClass.status, await ofClass.text()]).toEqual([200, expect.stringContaining("class.js")]);
    expect((await fetch(`${first.address}/class/class.js`)).status).toBe(200);
    const sheets = (await (await fetch(`${first.address}/courses/1-sheets.json`)).json()) as object;
    expect(Object.keys(sheets).length).toBeGreaterThan(0);
    expect((await fetch(`${first.address}/service-worker.js`)).status).toBe(200);
    first.child.kill("SIGTERM");
    expect(await first.ended).toBe(0);
    const second = await start("school.sqlite");
    expect(second.said).not.toContain("first teacher");
    second.child.kill("SIGTERM");
  });

  test("is killed at any moment, and every take that was acknowledged is there, once", async () => {
    const read = readCurriculum(readFileSync(file, "utf8"), { file, readFile: () => undefined });
    if (!read.ok) throw new Error(JSON.stringify(read.problems));
    const course = read.value;
    const acknowledged: string[] = [];
    let token = "";
    for (let round = 0; round <= sample({ suite: 3, proof: 300 }); round++) {
      const school = await start("killed.sqlite");
      if (round === 0) {
        const secret = /\/class\/#\/join\/(\S+)/.exec(school.said)![1]!;
        const teacher = await post(school.address, "/api/invitations/accept", { secret, as: "token", name: "avocet" });
        const invited = await post(
          school.address,
          `/api/classes/${encodeURIComponent(course.title)}/invitations`,
          { name: "tern" },
          teacher.token,
        );
        token = (await post(school.address, "/api/invitations/accept", { secret: invited.secret, as: "token" })).token!;
      }
      // At once, or some milliseconds after the first or second take was acknowledged: each round at another moment, however busy the machine is.
      let counted = 0;
      const kill = (): unknown => setTimeout(() => school.child.kill("SIGKILL"), (round * 37) % 150);
      if (round % 3 === 0) kill();
      const headers = { authorization: `Bearer ${token}`, "content-type": "application/json" };
      for (let n = 0; ; n++) {
        const id = `take-${round}-${n}`;
        const at = `${school.address}/api/students/tern/courses/${course.name}`;
        try {
          const standing = (await (await fetch(`${at}/standing`, { headers })).json()) as {
            readonly drills: readonly { readonly drill: string; readonly rung: string; readonly state: string }[];
          };
          const { drill, rung } = standing.drills.find(({ state }) => state === "open")!;
          // Late ones go back, so that there is always something to play.
          const take = playTo(course, { id, drill, rung, how: n % 2 === 0 ? "in time" : "late" });
          const sent = await fetch(`${at}/takes/${id}`, { method: "PUT", headers, body: JSON.stringify(take) });
          if (!sent.ok) throw new Error(await sent.text());
          acknowledged.push(id);
          counted += 1;
          if (counted === round % 3) kill();
        } catch (error) {
          if (school.child.killed) break;
          throw error;
        }
      }
      await school.ended;
    }
    const store = await openSqlite(join(folder, "killed.sqlite"), { create: false });
    if (!store.ok) throw new Error(JSON.stringify(store.problems));
    const events = await eventsOf(store.value, { student: "tern", curriculum: course.name });
    const kept = events.filter((event) => event.kind === "take assessed").map(({ take }) => take);
    expect(acknowledged.filter((id) => !kept.includes(id))).toEqual([]);
    expect(new Set(kept).size).toBe(kept.length);
    expect(acknowledged.length).toBeGreaterThan(0);
    for await (const problem of store.value.verify()) expect(problem).toBeUndefined();
    await store.value.close();
  });

  test("refuses an address that is none", async () => {
    const said = await saidBy(["serve", file, "--store", "x.sqlite", "--address", "school.example/path"]);
    expect(said).toMatchObject({ status: 2, err: expect.stringContaining("https://school.example") });
  });
});
