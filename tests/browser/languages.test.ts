import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { serveFiles } from "../../lib/node/index.js";
import { listLanguages, loadWords } from "../../lib/words/index.js";
import { builtEntry } from "../built.js";
import { saidBy } from "../cli/said.js";
import { enrolOn, hasChromium, openChromium, picture, visitor } from "./practisePage.js";

/** A course that names its language; `LANGUAGE` is put in by each test. */
const COURSE = `
language: LANGUAGE
curriculum: quay-steps
edition: 1.0.0
title: Quay steps
patterns:
  steps:
    meter: 4/4
    bars: 2
    key: C major
    parts:
      kit: { voices: { kick: x---x--- | ..., hat: x-x-x-x- | ... } }
      lead: { notes: "1/4 C4 1/8 D4 E4 1/4 F4 - | 1/4 G4 F4 1/8 E4 D4 1/4 C4" }
drills:
  walk:
    title: Walk
    pattern: steps
    student: lead
    phrases: 2
    dropout: { length: 1 bar, parts: [kit] }
    ladders:
      - tempo: { from: 150, to: 160, by: 5 }
    mixes: { play: { lead: off }, listen: { lead: plays } }
    tolerance: { drift: 12 %, landing: 120 ms }
    gate: { clean: 1, of: 1 }
  far:
    title: Far
    pattern: steps
    student: lead
    needs: [walk]
    tempo: 150
    dropout: { length: 1 bar, parts: [kit] }
    mixes: { play: { lead: off } }
    tolerance: { drift: 12 % }
    gate: { clean: 2, of: 3 }
`;

/** Texts that are wider than the screen, or cut by the box they stand in. */
function cutTexts(page: Page): Promise<readonly string[]> {
  return page.evaluate(() => {
    const wide = document.documentElement.scrollWidth > document.documentElement.clientWidth;
    const cut = [...document.querySelectorAll<HTMLElement>("body *")].filter((element) => {
      const own = [...element.childNodes].some((node) => node.nodeType === 3 && node.textContent!.trim() !== "");
      if (!own || element.closest(".unseen, .skip, svg, select, script, details:not([open])")) return false;
      const box = element.getBoundingClientRect();
      const hides = getComputedStyle(element).overflowX !== "visible" && element.scrollWidth > element.clientWidth + 1;
      return box.width > 0 && (hides || box.right > innerWidth + 1 || box.left < -1);
    });
    return [
      ...(wide ? ["the page is wider than the screen"] : []),
      ...cut.map((each) => `${each.tagName}: ${each.textContent}`),
    ];
  });
}

describe.skipIf(!hasChromium)("the practice page", () => {
  const folder = mkdtempSync(join(tmpdir(), "leeway-languages-"));
  let browser: Browser;

  beforeAll(async () => {
    builtEntry();
    browser = await openChromium();
  });
  afterAll(async () => {
    await browser?.close();
    rmSync(folder, { force: true, recursive: true });
  });

  const tags = listLanguages().flatMap(({ tag }) => (tag === "en" ? [] : [tag]));
  test.each(tags)(
    "is in %s where its course names the language, and nothing is cut on the narrowest phone",
    async (tag) => {
      const loaded = await loadWords(tag);
      if (!loaded.ok) throw new Error(tag);
      const { say } = loaded.value;
      const file = join(folder, `${tag}.yaml`);
      writeFileSync(file, COURSE.replace("LANGUAGE", tag));
      const out = join(folder, tag);
      const made = await saidBy(["page", file, "--out", out]);
      expect(made.status, made.err).toBe(0);
      // Said once where the language is chosen, by the command and on the page.
      expect(made.err.split(say("languages.unreviewed"))).toHaveLength(2);
      const names = readdirSync(out, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile());
      const paths = names.map(({ parentPath, name }) => join(parentPath, name));
      expect(
        paths
          .filter((path) => /words[\\/]/.test(path))
          .map((path) => path.slice(out.length + 1))
          .sort(),
      ).toEqual([`words/${tag}-further.js`, `words/${tag}.js`]);
      const site = await serveFiles(
        new Map(paths.map((path) => [path.slice(out.length + 1), new Uint8Array(readFileSync(path))] as const)),
      );
      const guest = await visitor(browser, site.address);
      const { page } = guest;
      await page.goto(site.address);
      await page.waitForSelector("#nick");
      expect(await page.getAttribute("html", "lang")).toBe(tag);
      expect(await page.textContent("h1")).toBe(say("page.choose-title"));
      expect((await page.textContent("footer"))!.split(say("languages.unreviewed"))).toHaveLength(2);
      expect(await cutTexts(page)).toEqual([]);
      await picture(page, `${tag}-choose`);
      await enrolOn(page, "Gull");
      for (const view of ["today", "course", "history", "choose", "teacher", "sound", "drill/walk"]) {
        await page.goto(`${site.address}#/${view}`);
        await page.waitForSelector("h1");
        await page.waitForTimeout(300);
        expect(await cutTexts(page), view).toEqual([]);
        const seen = await page.evaluate(() => document.querySelector("main")!.textContent);
        expect(seen, view).not.toMatch(/\b(?:the|and|you|your)\b/);
        await picture(page, `${tag}-${view.replace("/", "-")}`);
      }
      // What is wrong with a course is told in the language too, from words that no student's view loads.
      const loads = () =>
        page.evaluate(() =>
          performance.getEntriesByType("resource").filter(({ name }) => name.endsWith("-further.js")),
        );
      await page.goto(site.address);
      await page.reload();
      await page.waitForSelector("h1");
      expect(await loads()).toHaveLength(0);
      await page.goto(`${site.address}#/teacher`);
      await page.fill(
        "#course-text",
        COURSE.replace("LANGUAGE", tag).replace("lead: off", "led: off").replace("12 %", "12"),
      );
      await page.waitForSelector(".problems");
      expect(await loads()).toHaveLength(1);
      expect(await page.textContent(".problems")).not.toMatch(/\b(?:the|and|you|your|write|must|found)\b/);
      expect(await cutTexts(page)).toEqual([]);
      expect(guest.complaints).toEqual([]);
      expect(guest.strayed).toEqual([]);
      await site.close();
      await guest.context.close();
    },
  );

  test("in one file has the words of its language with it", async () => {
    const file = join(folder, "one.yaml");
    writeFileSync(file, COURSE.replace("LANGUAGE", "fr"));
    const out = join(folder, "one.html");
    expect((await saidBy(["page", file, "--single", "--out", out])).status).toBe(0);
    const guest = await visitor(browser, "file://");
    await guest.page.goto(pathToFileURL(out).href);
    await guest.page.waitForSelector("#nick");
    const french = await loadWords("fr");
    expect(await guest.page.textContent("h1")).toBe(french.ok && french.value.say("page.choose-title"));
    await guest.context.close();
  });
});
