import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { gzipSync } from "node:zlib";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { builtEntry } from "../built.js";
import { ROOT } from "../sources.js";
import {
  axeOn,
  enrolOn,
  expectQuiet,
  hasChromium,
  openChromium,
  picture,
  servedPage,
  visitor,
} from "./practisePage.js";
import { HOSTILE_COURSE } from "./shortCourse.js";

const SHIPPED = join(ROOT, "curricula/quayside-first-course.yaml");

describe.skipIf(!hasChromium)("the practice page", () => {
  const folder = mkdtempSync(join(tmpdir(), "leeway-page-"));
  const shortFile = join(folder, "short.yaml");
  let browser: Browser;
  let shipped: Awaited<ReturnType<typeof servedPage>>;
  let short: Awaited<ReturnType<typeof servedPage>>;

  beforeAll(async () => {
    builtEntry();
    writeFileSync(shortFile, HOSTILE_COURSE);
    shipped = await servedPage([SHIPPED], join(folder, "shipped"));
    short = await servedPage([shortFile], join(folder, "short"));
    browser = await openChromium();
  });
  afterAll(async () => {
    await browser?.close();
    await Promise.all([shipped?.close(), short?.close()]);
    rmSync(folder, { force: true, recursive: true });
  });

  test("asks nothing of anybody but its own origin, and could not", async () => {
    const guest = await visitor(browser, shipped.address);
    await guest.page.goto(shipped.address);
    await guest.page.waitForSelector("#nick");
    const outcome = await guest.page.evaluate(
      (other) =>
        fetch(other).then(
          () => "answered",
          (error) => String(error),
        ),
      short.address,
    );
    expect(outcome).toMatch(/Failed to fetch/);
    await guest.context.close();
  });

  test("needs at most 80 kB of script, gzipped, for its first view", async () => {
    const { page, context } = await visitor(browser, shipped.address);
    const sizes: Promise<number>[] = [];
    page.on("response", (response) => {
      if (response.url().endsWith(".js")) sizes.push(response.body().then((body) => gzipSync(body).length));
    });
    await page.goto(shipped.address);
    await page.waitForSelector("#nick");
    const total = (await Promise.all(sizes)).reduce((sum, size) => sum + size, 0);
    console.log(`script of the first view: ${(total / 1000).toFixed(1)} kB gzipped, in ${sizes.length} files`);
    expect(total).toBeLessThan(80_000);
    await context.close();
  });

  test("is there without a network after one visit", async () => {
    const guest = await visitor(browser, shipped.address);
    const { page, context } = guest;
    await page.goto(shipped.address);
    await enrolOn(page, "Tern");
    await page.evaluate(() => navigator.serviceWorker.ready);
    await context.setOffline(true);
    await page.reload();
    await page.waitForSelector(".programme");
    for (const view of ["course", "drill/one-bar/1", "history", "teacher"]) {
      await page.goto(`${shipped.address}#/${view}`);
      await page.waitForSelector(view === "teacher" ? "#course-text" : "h1");
    }
    await page.goto(`${shipped.address}#/drill/two-bars/1`);
    await page.waitForSelector(".stand svg .f-hatch");
    expectQuiet(guest);
    await context.close();
  });

  test.each([
    { dark: false, width: 360, height: 740 },
    { dark: true, width: 1280, height: 800 },
  ])(
    "has no violation that axe-core finds, and nothing wider than the screen, in any view (dark: $dark, $width px)",
    async (look) => {
      const guest = await visitor(browser, shipped.address, look);
      const { page } = guest;
      const found: string[] = [];
      const look_at = async (name: string): Promise<void> => {
        for (const each of await axeOn(page)) found.push(`${name}: ${each}`);
        const wider = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
        if (wider > 0) found.push(`${name}: ${wider} px wider than the screen`);
        await picture(page, `${name}${look.dark ? "-dark" : ""}`);
      };
      await page.goto(shipped.address);
      await page.waitForSelector("#nick");
      await look_at("choose");
      await enrolOn(page, "Gull");
      await look_at("today");
      const views: readonly (readonly [string, string])[] = [
        ["course", ".drill"],
        ["drill/one-bar/1", "#start"],
        ["drill/nowhere", "h1"],
        ["history", "#export"],
        ["sound", ".caution"],
        ["choose", "#nick"],
        ["teacher", "#course-text"],
      ];
      for (const [view, shown] of views) {
        await page.goto(`${shipped.address}#/${view}`);
        await page.waitForSelector(shown);
        await page.evaluate(() => {
          for (const each of document.querySelectorAll("details")) each.open = true;
        });
        await look_at(view.replaceAll("/", "-"));
      }
      await page.fill("#course-text", readFileSync(SHIPPED, "utf8").replace("bars: 4", "bars: 5"));
      await page.waitForSelector(".problem");
      await look_at("teacher-problems");
      await page.fill("#course-text", readFileSync(SHIPPED, "utf8"));
      await page.waitForSelector("#preview-drill");
      await look_at("teacher-preview");
      expect(found).toEqual([]);
      expectQuiet(guest);
      await guest.context.close();
    },
  );
});
