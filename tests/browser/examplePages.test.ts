import { readFileSync } from "node:fs";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { extname, join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test, vi } from "vitest";
import { compileCourse, readCurriculum, rungs, scoreOf } from "../../lib/index.js";
import { builtEntry } from "../built.js";
import { ROOT } from "../sources.js";
import { isThere } from "./chromium.js";
import { openChromium, PATIENCE } from "./practisePage.js";
import { shortCourse } from "./shortCourse.js";

vi.setConfig({ testTimeout: 3 * PATIENCE, hookTimeout: PATIENCE });

const EXAMPLES = join(ROOT, "lib", "examples");
const TYPES: Readonly<Record<string, string>> = {
  ".html": "text/html",
  ".js": "text/javascript",
  ".json": "application/json",
};

const course = (() => {
  const read = readCurriculum(shortCourse("A short walk"), { file: "walk.yaml", readFile: () => undefined });
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.value;
})();

/** Seconds from the first sound of the count-in to each onset that is expected, rung by rung. */
const onsets = Array.from({ length: rungs(course.drills[0]!).count }, (_, rung) => {
  const { countIn, expected } = scoreOf(rungs(course.drills[0]!).at(rung));
  return expected.map(({ at }) => countIn + at);
});

/** What a web server gives a stranger: the examples, the course, and the packages that were installed, as they are. */
const server = createServer((request, response) => {
  const path = new URL(request.url!, "http://quay").pathname;
  try {
    const content =
      path === "/course.json"
        ? compileCourse(course)
        : readFileSync(
            path.startsWith("/node_modules/leeway/")
              ? join(ROOT, path.slice("/node_modules/leeway/".length))
              : path.startsWith("/node_modules/")
                ? join(ROOT, path)
                : join(EXAMPLES, path),
          );
    response.writeHead(200, { "content-type": TYPES[extname(path)] ?? "application/octet-stream" }).end(content);
  } catch {
    response.writeHead(404).end();
  }
});

/**
 * A player who knows nothing of leeway: hears the first sound that Web Audio is told to make after a silence, and plays each onset from there, by the
 * clock of what leaves the loudspeaker.
 */
function playByEar({
  takes,
  kind,
}: {
  readonly takes: readonly (readonly number[])[];
  readonly kind: "taps" | "keys";
}): void {
  const keys = { name: "Pier keys", state: "connected", onmidimessage: null as ((event: object) => void) | null };
  if (kind === "keys")
    Object.defineProperty(navigator, "requestMIDIAccess", {
      value: async () => ({ inputs: new Map([["1", keys]]), onstatechange: null }),
    });
  const hit = (timeStamp: number): void => {
    if (kind === "keys") {
      keys.onmidimessage?.({ timeStamp, data: [0x90, 60, 90] });
      return;
    }
    const tap = new PointerEvent("pointerdown", { button: 0, bubbles: true });
    Object.defineProperty(tap, "timeStamp", { value: timeStamp });
    document.querySelector("#tap")!.dispatchEvent(tap);
  };
  let take = -1;
  let until = 0;
  const begin = AudioBufferSourceNode.prototype.start;
  AudioBufferSourceNode.prototype.start = function (when = 0, ...rest: number[]) {
    if (when > until) {
      const context = this.context as AudioContext;
      const expected = takes[++take] ?? [];
      until = when + (expected.at(-1) ?? 0) + 1;
      let next = 0;
      const timer = setInterval(() => {
        const { contextTime = 0, performanceTime = 0 } = context.getOutputTimestamp();
        const now = contextTime + (performance.now() - performanceTime) / 1000;
        for (; next < expected.length && when + expected[next]! <= now; next++)
          hit(performanceTime + 1000 * (when + expected[next]! - contextTime));
        if (next === expected.length) clearInterval(timer);
      }, 20);
    }
    return begin.call(this, when, ...rest);
  };
}

describe("the examples", () => {
  test.each(["page.html", "keys.html", "backend.mjs"])("%s has fewer than 80 lines", (name) => {
    expect(readFileSync(join(EXAMPLES, name), "utf8").trimEnd().split("\n").length).toBeLessThan(80);
  });

  describe.skipIf(!isThere)("in a browser, from a plain web server, without a bundler", () => {
    let browser: Browser;
    let address: string;
    beforeAll(async () => {
      builtEntry();
      await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
      address = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
      browser = await openChromium();
    });
    afterAll(async () => {
      await browser?.close();
      server.close();
    });

    async function open(name: string, kind: "taps" | "keys"): Promise<{ page: Page; complaints: readonly string[] }> {
      const page = await browser.newPage();
      page.setDefaultTimeout(PATIENCE);
      const complaints: string[] = [];
      page.on("pageerror", ({ message }) => void complaints.push(message));
      page.on("requestfailed", (request) => void complaints.push(request.url()));
      await page.addInitScript(playByEar, { takes: onsets, kind });
      await page.goto(`${address}/${name}`);
      return { page, complaints };
    }

    async function taskToBe(page: Page, task: string): Promise<void> {
      await page.waitForFunction(() => document.querySelector("#task")!.textContent !== "");
      expect(await page.textContent("#task")).toBe(task);
    }

    test("the page plays, is tapped to, says what the take showed, and what is next when it is opened again", async () => {
      const { page, complaints } = await open("page.html", "taps");
      await taskToBe(page, "walk: dropout=1 bar,parts=kit,tempo=150");
      await page.click("#start");
      await page.waitForFunction(() => document.querySelector("output")!.value !== "");
      expect(await page.textContent("output")).toMatch(/^In time.*The gate is met/s);
      await page.reload();
      await taskToBe(page, "walk: dropout=1 bar,parts=kit,tempo=155");
      expect(complaints).toEqual([]);
      await page.close();
    });

    test("the keyboard is played to take after take, until the course is complete", async () => {
      const { page, complaints } = await open("keys.html", "keys");
      await page.click("button");
      await page.waitForFunction(
        () => document.querySelector("li:last-child")?.textContent === "The course is complete.",
      );
      const said = await page.locator("li").allTextContents();
      expect(said.filter((each) => each.startsWith("walk:"))).toEqual([
        "walk: dropout=1 bar,parts=kit,tempo=150",
        "walk: dropout=1 bar,parts=kit,tempo=155",
        "walk: dropout=1 bar,parts=kit,tempo=160",
      ]);
      expect(complaints).toEqual([]);
      await page.close();
    });
  });
});
