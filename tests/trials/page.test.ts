import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { build } from "esbuild";
import { type Browser, chromium, type Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test, vi } from "vitest";
import { compileCourse, readCurriculum } from "../../lib/index.js";
import { builtEntry } from "../built.js";
import { ROOT } from "../sources.js";

vi.setConfig({ testTimeout: 120_000, hookTimeout: 120_000 });

const PROGRAM = join(ROOT, "tests", "trials", "page.mjs");
const CHROMIUM = "/usr/bin/chromium";
const isThere = existsSync(CHROMIUM);
if (!isThere) console.log(`the page is not tried in a browser: ${CHROMIUM} is not installed`);

const DEVICE = `<button>start or end</button><div data-pad tabindex="0">tap</div><output></output>`;

/** Two devices of one student on one store, which does each third thing it is asked for and then loses its answer. */
const SCENE = `
import { memoryStore } from "leeway/store";
import { scoreFor, openStudent } from "leeway/practice";
import { openCourse } from "leeway";
import { practise } from ${JSON.stringify(PROGRAM)};

const kept = memoryStore();
let asked = 0;
const losing = { ...kept, append: async (...given) => {
  const answer = await kept.append(...given);
  if (++asked % 3 === 1) throw Object.assign(new Error("lost"), { problem: { code: "STORE_UNREACHABLE" } });
  return answer;
} };
const devices = () => [...document.querySelectorAll("section")];

window.open = async (text) => {
  window.course = openCourse(text).value;
  await Promise.all(devices().map((element) => practise(element, { text, store: losing, student: "tern" })));
};
/** What has to be played now, seconds from bar 1, and the length of the count-in. */
window.expected = async () => {
  const [next] = (await openStudent(kept, "tern", { course })).value.open;
  const score = scoreFor(course, next.rung);
  return { countIn: score.countIn, at: score.expected.map(({ at }) => at) };
};
/** Something done to a part of a device, at a time of our own, milliseconds. */
window.does = (device, part, type, timeStamp, more = {}) => {
  const event = Object.assign(new Event(type), more);
  Object.defineProperty(event, "timeStamp", { value: timeStamp });
  devices()[device].querySelector(part).dispatchEvent(event);
};
window.said = (device, times = 1) => new Promise((resolve) => {
  const words = [];
  const hear = ({ detail }) => {
    if (words.push(detail) < times) return;
    devices()[device].removeEventListener("said", hear);
    resolve(words);
  };
  devices()[device].addEventListener("said", hear);
});
window.events = async () => {
  const all = [];
  for await (const event of kept.events({ student: "tern", curriculum: course.name })) all.push(event);
  return all;
};`;

/** What the scene gives the page. */
interface Scene {
  open(text: string): Promise<void>;
  expected(): Promise<{ readonly countIn: number; readonly at: readonly number[] }>;
  does(device: number, part: string, type: string, timeStamp: number, more?: object): void;
  said(device: number, times?: number): Promise<readonly string[]>;
  events(): Promise<readonly { readonly kind: string }[]>;
}

function compiledCourse(): string {
  const file = "quayside-first-course.yaml";
  const read = readCurriculum(readFileSync(join(ROOT, "curricula", file), "utf8"), { file, readFile: () => undefined });
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return compileCourse(read.value);
}

test("a page written from the docs of the doors has fewer than 60 lines", () => {
  expect(readFileSync(PROGRAM, "utf8").trimEnd().split("\n").length).toBeLessThan(60);
});

describe.skipIf(!isThere)("a page written from the docs of the doors", () => {
  let folder: string;
  let browser: Browser;
  let page: Page;
  const complaints: string[] = [];

  beforeAll(async () => {
    builtEntry();
    folder = mkdtempSync(join(tmpdir(), "leeway-page-"));
    mkdirSync(join(folder, "node_modules"));
    symlinkSync(ROOT, join(folder, "node_modules", "leeway"), "dir");
    const bundle = await build({
      bundle: true,
      format: "iife",
      logLevel: "error",
      nodePaths: [join(folder, "node_modules")],
      // A module of Node would fail here.
      platform: "browser",
      stdin: { contents: SCENE, resolveDir: folder },
      write: false,
    });
    browser = await chromium.launch({ executablePath: CHROMIUM, args: ["--no-sandbox"] });
    page = await browser.newPage();
    page.on("pageerror", (error) => void complaints.push(error.message));
    // A place of its own, as `crypto.randomUUID` is there in secure places only.
    await page.route("https://quay.example/", (route) =>
      route.fulfill({
        contentType: "text/html",
        body: `<!doctype html><section>${DEVICE}</section><section>${DEVICE}</section>`,
      }),
    );
    await page.goto("https://quay.example/");
    await page.addScriptTag({ content: bundle.outputFiles[0]!.text });
    await page.evaluate((text) => (globalThis as unknown as Scene).open(text), compiledCourse());
  });
  afterAll(async () => {
    await browser?.close();
    rmSync(folder, { force: true, recursive: true });
  });

  /** Plays what is next on each of these devices, by pointer on the first and by the space bar on the others, and ends both at once, twice. */
  const playOn = (devices: readonly number[]): Promise<readonly (readonly string[])[]> =>
    page.evaluate(async (playing) => {
      const scene = globalThis as unknown as Scene;
      const { countIn, at } = await scene.expected();
      const began = 5000;
      for (const device of playing) {
        const ready = scene.said(device);
        scene.does(device, "button", "click", began);
        await ready;
        for (const each of at)
          scene.does(
            device,
            "[data-pad]",
            device === 0 ? "pointerdown" : "keydown",
            began + 1000 * (countIn + each - 0.015),
            device === 0 ? {} : { key: " ", repeat: false },
          );
      }
      const told = playing.map((device) => scene.said(device, 2));
      for (let press = 0; press < 2; press++)
        for (const device of playing) scene.does(device, "button", "click", 60_000);
      return Promise.all(told);
    }, devices);

  const kinds = async (): Promise<readonly string[]> => {
    const events = await page.evaluate(() => (globalThis as unknown as Scene).events());
    return events.map(({ kind }) => kind);
  };

  test("counts each take once, whoever presses twice and whatever answers are lost, and advances when the gate is met", async () => {
    expect(await kinds()).toEqual(["enrolled", "drill opened"]);
    const decisions: string[] = [];
    for (let take = 0; take < 3; take++) {
      const [told] = await playOn([0]);
      expect(told![1]).toBe(told![0]);
      decisions.push(/\w+$/.exec(told![0]!)![0]);
    }
    // The gate of the first drill: three clean takes of the last four.
    expect(decisions).toEqual(["hold", "hold", "advance"]);
    expect((await kinds()).filter((kind) => kind === "take assessed")).toHaveLength(3);
    expect((await kinds()).filter((kind) => kind === "advanced")).toHaveLength(1);
    expect(complaints).toEqual([]);
  });

  test("two devices at the same moment: both takes count, of the rung they were played to, and one of them advances", async () => {
    const before = await kinds();
    const answers = [...(await playOn([0, 1])), ...(await playOn([0, 1]))];
    const decisions = answers.map(([first]) => /\w+$/.exec(first!)![0]);
    expect(decisions.filter((each) => each === "advance")).toHaveLength(1);
    const after = (await kinds()).slice(before.length);
    expect(after.filter((kind) => kind === "take assessed")).toHaveLength(4);
    expect(after.filter((kind) => kind === "advanced")).toHaveLength(1);
    expect(complaints).toEqual([]);
  });

  test("real presses of a pointer and of the space bar are heard at their time", async () => {
    const device = page.locator("section").first();
    await device.locator("button").click();
    await device.locator("output").filter({ hasText: "play" }).waitFor();
    await device.locator("[data-pad]").click();
    await page.keyboard.press(" ");
    const before = (await kinds()).length;
    const told = page.evaluate(() => (globalThis as unknown as Scene).said(0));
    await device.locator("button").click();
    // Two taps are not the riff, so nothing is decided by them.
    expect((await told)[0]).toMatch(/hold$/);
    expect((await kinds()).slice(before)).toEqual(["take assessed"]);
    expect(complaints).toEqual([]);
  });
});
