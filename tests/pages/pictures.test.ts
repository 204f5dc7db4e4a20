import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { enrolOn, hasChromium, openChromium, servedPage, visitor } from "../browser/practisePage.js";
import { builtEntry } from "../built.js";
import { saidBy } from "../cli/said.js";
import { ROOT } from "../sources.js";
import { writing } from "./writing.js";

const PICTURES = join(ROOT, "curricula", "pictures");
const COURSE = join(ROOT, "curricula", "quayside-first-course.yaml");
/** How far two pictures of one thing may be apart, in the mean over all pixels, of 255: letters are drawn otherwise by another version of the browser. */
const SAME = 3;

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "leeway-pictures-"));
});
afterAll(() => rmSync(folder, { force: true, recursive: true }));

async function rendered(...words: readonly string[]): Promise<string> {
  const out = join(folder, words.join("-"));
  const { status, err } = await saidBy(["render", COURSE, "growing", "3", "--mix", "play", "--out", out, ...words]);
  expect(status, err).toBe(0);
  return join(out, "growing", readdirSync(join(out, "growing")).find((name) => /_chart\.svg$|sheet_/.test(name))!);
}

/** The picture as it is made now, or, when pages are brought up to date, put in the place of the one that is there. */
function compareText(name: string, now: string): void {
  if (writing) writeFileSync(join(PICTURES, name), now);
  else expect(now).toBe(readFileSync(join(PICTURES, name), "utf8"));
}

describe("pictures of the pages are what leeway draws", () => {
  test("what falls silent on a rung", async () => {
    compareText("silences.svg", readFileSync(await rendered("--as", "chart"), "utf8"));
  });

  test("what a take showed", async () => {
    const take = join(ROOT, "curricula", "takes", "one-bar-hurried.mid");
    const pictures = join(folder, "takes");
    await saidBy(["assess", COURSE, "one-bar", "1", take, "--pictures", pictures]);
    compareText("take.svg", readFileSync(join(pictures, readdirSync(pictures)[0]!), "utf8"));
  });

  describe.skipIf(!hasChromium)("in a browser", () => {
    let browser: Browser;
    beforeAll(async () => {
      builtEntry();
      browser = await openChromium();
    });
    afterAll(() => browser?.close());

    async function compareShot(name: string, page: Page, height: number): Promise<void> {
      const { width } = page.viewportSize()!;
      const now = await page.screenshot({ clip: { x: 0, y: 0, width, height } });
      const path = join(PICTURES, name);
      if (writing) writeFileSync(path, now);
      const url = (bytes: Buffer): string => `data:image/png;base64,${bytes.toString("base64")}`;
      const plain = await browser.newPage();
      const apart = await plain.evaluate(distance, [url(readFileSync(path)), url(now)] as const);
      await plain.close();
      expect(apart).toBeLessThan(SAME);
    }

    test("the sheet of a trumpet", async () => {
      const page = await browser.newPage({ viewport: { width: 794, height: 1123 } });
      await page.goto(pathToFileURL(await rendered("--as", "svg", "--for", "trumpet")).href);
      await compareShot("sheet.png", page, 820);
      await page.close();
    });

    test("the practice page at a drill", async () => {
      const { address, close } = await servedPage([COURSE], join(folder, "page"));
      const { page, context } = await visitor(browser, address, { width: 794, height: 820 });
      await page.goto(address);
      await enrolOn(page, "Gull");
      await page.goto(`${address}#/drill/growing/3`);
      await page.waitForSelector(".riff svg, .sheet svg, svg");
      await page.evaluate(() => document.fonts.ready);
      await compareShot("page.png", page, 820);
      await context.close();
      await close();
    });
  });

  test("are all there is in their folder, and all shown", () => {
    const shown = readFileSync(join(ROOT, "README.md"), "utf8");
    expect(existsSync(PICTURES)).toBe(true);
    for (const name of readdirSync(PICTURES)) expect(shown).toContain(`curricula/pictures/${name}`);
  });
});

/** Mean difference of two pictures, 0 to 255; 255 where their sizes differ. */
async function distance(addresses: readonly [string, string]): Promise<number> {
  const [a, b] = await Promise.all(
    addresses.map(async (address) => {
      const image = new Image();
      image.src = address;
      await image.decode();
      const canvas = document.createElement("canvas");
      canvas.width = image.width;
      canvas.height = image.height;
      const context = canvas.getContext("2d")!;
      context.drawImage(image, 0, 0);
      return context.getImageData(0, 0, image.width, image.height).data;
    }),
  );
  if (a!.length !== b!.length) return 255;
  let sum = 0;
  for (let i = 0; i < a!.length; i++) sum += Math.abs(a![i]! - b![i]!);
  return sum / a!.length;
}
