import { chmodSync, mkdtempSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { build } from "esbuild";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { partText } from "../../../lib/rehearsal/index.js";
import { shipped } from "../../rehearsal/courses.js";
import { ROOT } from "../../sources.js";

type Node = typeof import("../../../lib/node/index.js");

const outdir = mkdtempSync(join(ROOT, "node_modules", ".rehearsal-"));
const keep = mkdtempSync(join(tmpdir(), "leeway-kept-"));
const courses = [{ course: shipped("first-course"), options: { drills: ["half-bar"], weeks: 3 } }];
let node: Node;

/** Threads need files that Node reads by itself. */
beforeAll(async () => {
  chmodSync(outdir, 0o755);
  const folder = join(ROOT, "lib", "node");
  await build({
    entryPoints: { index: join(folder, "index.ts"), rehearser: join(folder, "rehearsal", "rehearser.ts") },
    ...{ bundle: true, packages: "external", platform: "node", format: "esm", outdir, logLevel: "error" },
  });
  node = (await import(pathToFileURL(join(outdir, "index.js")).href)) as Node;
});
afterAll(() => {
  for (const folder of [outdir, keep]) rmSync(folder, { force: true, recursive: true });
});

async function textBy(
  workers: number,
  options: { readonly keep?: string; readonly signal?: AbortSignal } = {},
): Promise<string> {
  const done = await node.rehearseCourses(courses, { from: 0, count: 700, workers, ...options });
  return done.ok ? partText(done.value.part) : done.problems.map(({ code }) => code).join();
}

describe("rehearseCourses()", () => {
  test("gives the same bytes with one worker, two and three", async () => {
    const one = await textBy(1, { keep });
    expect(one.length).toBeGreaterThan(1000);
    expect(await textBy(2)).toBe(one);
    expect(await textBy(3, { keep })).toBe(one);
  });

  test("that is stopped says so, keeps what is finished, and goes on from there to the same bytes", async () => {
    const whole = await textBy(1, { keep });
    const before = readdirSync(keep).length;
    const controller = new AbortController();
    const stopped = await node.rehearseCourses(courses, {
      ...{ from: 0, count: 700, workers: 1, keep, signal: controller.signal },
      onProgress: ({ of }) => of === "students" && controller.abort(),
    });
    expect(stopped.ok ? "" : stopped.problems[0]!.code).toBe("REHEARSAL_STOPPED");
    expect(readdirSync(keep).length).toBeGreaterThan(before);
    expect(await textBy(1, { keep })).toBe(whole);
    expect(readdirSync(keep).length).toBe(before);
  });

  test("whose thread does not begin is a problem: here there is no compiled file for it", async () => {
    const { rehearseCourses } = await import("../../../lib/node/index.js");
    const done = await rehearseCourses(courses, { from: 0, count: 2, workers: 2 });
    expect(done.ok ? "" : done.problems[0]!.code).toBe("REHEARSAL_FAILED");
  });
});
