import type { ChildProcess } from "node:child_process";
import { copyFileSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { leeway } from "../../../lib/cli/program.js";
import type { Terminal } from "../../../lib/cli/terminal.js";
import { readCurriculum } from "../../../lib/curriculum/index.js";
import { eventsOf } from "../../../lib/store/index.js";
import { openSqlite } from "../../../lib/store/sqlite/index.js";
import { playTo } from "../../practice/quay.js";
import { sample } from "../../samples.js";
import { ROOT } from "../../sources.js";
import { rawSqlite } from "../../store/rawSqlite.js";
import { saidBy } from "../said.js";
import { type Running, startServe } from "./startServe.js";

const folder = mkdtempSync(join(tmpdir(), "leeway-serve-"));
const file = join(folder, "quay.yaml");
copyFileSync(join(ROOT, "tests/cli/quay.yaml"), file);
const running = new Set<ChildProcess>();
let ended: Promise<number> | undefined;

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

/** The command in this process: the first teacher comes in, and it is interrupted. `meanwhile` is done before. */
async function serving(
  words: readonly string[],
  { isWatched, meanwhile = () => undefined }: { readonly isWatched: boolean; readonly meanwhile?: () => void },
): Promise<{ readonly out: string; readonly err: string; readonly addresses: string[] }> {
  const said = { out: "", err: "" };
  const open = new Promise<string[]>((resolve) => {
    const terminal: Terminal = {
      print: (text) => {
        said.out += text;
        const addresses = Array.from(said.out.matchAll(/http[^\s"]+/g), ([found]) => found);
        if (addresses.length === 2) resolve(addresses);
      },
      tell: (text) => {
        said.err += text;
      },
      readInput: () => new Uint8Array(),
      colours: { print: false, tell: false },
      isWatched,
      now: () => "2026-03-02T17:30:00Z",
    };
    ended = leeway(["serve", file, ...words], terminal);
  });
  const addresses = await open;
  meanwhile();
  const secret = addresses[1]!.split("/").at(-1)!;
  await post(addresses[0]!, "/api/invitations/accept", { secret, as: "token", name: "avocet" });
  process.emit("SIGINT");
  expect(await ended).toBe(0);
  return { ...said, addresses };
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

  test("says in words to who watches what concerns them, and writes lines of JSON where it is kept or asked for", async () => {
    const watched = await serving(["--store", join(folder, "watched.sqlite")], { isWatched: true });
    expect(watched.out).toMatch(
      /^The school is at http:\S+ \(Ctrl\+C ends it\)\nThe first teacher comes in once by http:\S+\n$/,
    );
    expect(watched.err).toMatch(
      /^Students practise at that address, [^{}]*\/class\/\.\n[^{}]*\n\S+Z {2}somebody came in by an invitation\nThe school is closed\. [^{}]*\n$/,
    );
    const lines = (text: string): unknown[] =>
      text
        .trim()
        .split("\n")
        .map((line) => JSON.parse(line) as unknown);
    const kept = await serving(["--store", join(folder, "kept.sqlite")], { isWatched: false });
    expect(kept.out).toBe(watched.out.replace(/http\S+/g, () => kept.addresses.shift()!));
    expect(lines(kept.err)).toMatchObject([{ operation: "acceptInvitation", status: 201 }]);
    const asked = await serving(["--store", join(folder, "asked.sqlite"), "--json"], { isWatched: true });
    expect(lines(asked.out)).toEqual([{ address: asked.addresses[0], first: asked.addresses[1] }]);
    expect(lines(asked.err)).toMatchObject([{ operation: "acceptInvitation", status: 201 }]);
  });

  test("says to who watches that an answer failed, and how many nobody has seen for long", async () => {
    const store = join(folder, "broken.sqlite");
    const raw = await rawSqlite(store);
    await serving(["--store", store], { isWatched: true });
    raw.exec("update leeway_people set seen = '2001-01-01T00:00:00.000Z', role = 'student'");
    const again = await serving(["--store", store], {
      isWatched: true,
      meanwhile: () => raw.exec("drop table leeway_invitations"),
    });
    raw.close();
    expect(again.err).toMatch(
      /^1 student was not seen for long; [^{}]+\nStudents [^{}]+\n\S+Z {2}request \S+ could not be answered: \w+\nThe school is closed/,
    );
  });

  test("is killed at any moment, and every take that was acknowledged is there, once", async () => {
    const read = readCurriculum(readFileSync(file, "utf8"), { file, readFile: () => undefined });
    if (!read.ok) throw new Error(JSON.stringify(read.problems));
    const course = read.value;
    const acknowledged: string[] = [];
    let token = "";
    let sent = 0;
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
          // One of three is in time, which is never three of four: there is always something to play, however many rounds.
          const take = playTo(course, { id, drill, rung, how: sent++ % 3 === 0 ? "in time" : "late" });
          const answer = await fetch(`${at}/takes/${id}`, { method: "PUT", headers, body: JSON.stringify(take) });
          if (!answer.ok) throw new Error(await answer.text());
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
