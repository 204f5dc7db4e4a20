import { type ChildProcess, spawn } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test, vi } from "vitest";
import { builtEntry } from "../built.js";
import { ROOT } from "../sources.js";
import { type PostgresServer, SECONDS_TO_START, startPostgres } from "../store/postgresServer.js";

vi.setConfig({ testTimeout: 180_000, hookTimeout: 1000 * (60 + SECONDS_TO_START) });

const COURSE = join(ROOT, "curricula", "quayside-first-course.yaml");
const PROGRAM = join(ROOT, "lib", "examples", "backend.mjs");

let host: PostgresServer | undefined;
let folder: string;
const running: ChildProcess[] = [];

beforeAll(async () => {
  builtEntry();
  host = await startPostgres();
  // A stranger's folder: the package as a dependency, and the program.
  folder = mkdtempSync(join(tmpdir(), "leeway-backend-"));
  mkdirSync(join(folder, "node_modules"));
  symlinkSync(ROOT, join(folder, "node_modules", "leeway"), "dir");
  cpSync(PROGRAM, join(folder, "backend.mjs"));
});
afterAll(() => {
  for (const each of running) each.kill();
  host?.stop();
  rmSync(folder, { recursive: true, force: true });
});

/** Starts a backend; gives its address. */
async function start(database: string): Promise<string> {
  const program = spawn(process.execPath, [join(folder, "backend.mjs"), COURSE, database], {
    stdio: ["ignore", "pipe", "inherit"],
  });
  running.push(program);
  const port = await new Promise<string>((resolve, reject) => {
    program.stdout!.once("data", (bytes: Buffer) => resolve(bytes.toString().trim()));
    program.once("exit", (code) => reject(new Error(`the backend ended with ${code}`)));
  });
  return `http://127.0.0.1:${port}`;
}

interface Answer {
  readonly known: boolean;
  readonly finding: object;
  readonly decision: { readonly what: string };
  readonly events: readonly object[];
}

async function ask<T>(address: string, method: string, body?: unknown): Promise<{ status: number; value: T }> {
  const response = await fetch(address, { method, ...(body === undefined ? {} : { body: JSON.stringify(body) }) });
  return { status: response.status, value: (await response.json()) as T };
}

describe("the backend of the examples", () => {
  test("has fewer than 60 lines", () => {
    expect(readFileSync(PROGRAM, "utf8").trimEnd().split("\n").length).toBeLessThan(60);
  });

  test("two of them on one database: retries and races count each take once and tell the same", async (context) => {
    if (host === undefined) return context.skip("PostgreSQL is not installed");
    const database = await host.database("trial");
    const first = await start(database);
    const second = await start(database);
    const enrolled = await Promise.all(
      [first, second, first, second].map((address) => ask<{ known: boolean }>(`${address}/tern`, "PUT")),
    );
    expect(enrolled.filter(({ value }) => !value.known)).toHaveLength(1);
    const decisions: string[] = [];
    for (let i = 0; i < 6; i++) {
      const { value } = await ask<{
        open: readonly { drill: string; rung: string; score: { expected: readonly { at: number }[] } }[];
      }>(`${first}/tern`, "GET");
      const { drill, rung, score } = value.open[0]!;
      const take = { id: `t${i}`, drill, rung, zero: "bar-1", onsets: score.expected.map(({ at }) => at - 0.015) };
      // A page that is impatient, on two servers: all at the same moment, and once more later.
      const answers = await Promise.all(
        [first, second, first].map((address) => ask<Answer>(`${address}/tern/takes`, "POST", take)),
      );
      answers.push(await ask<Answer>(`${second}/tern/takes`, "POST", take));
      expect(answers.map(({ status }) => status)).toEqual([200, 200, 200, 200]);
      expect(answers.filter(({ value: answer }) => !answer.known)).toHaveLength(1);
      for (const { value: answer } of answers) {
        expect(answer.finding).toEqual(answers[0]!.value.finding);
        expect(answer.decision).toEqual(answers[0]!.value.decision);
        expect(answer.events).toEqual(answers[0]!.value.events);
      }
      decisions.push(answers[0]!.value.decision.what);
    }
    // The gate of the first drill: three clean takes of the last four.
    expect(decisions).toEqual(["hold", "hold", "advance", "hold", "hold", "advance"]);
    const bare = await ask<{ problems: readonly { code: string }[] }>(`${first}/tern/takes`, "POST", { onsets: [0] });
    expect(bare.status).toBe(422);
    expect(bare.value.problems.map(({ code }) => code)).toContain("TAKE_RUNG_NOT_SAID");
    expect((await fetch(`${first}/tern/takes`, { method: "POST", body: "{ cut off" })).status).toBe(400);
  });
});
