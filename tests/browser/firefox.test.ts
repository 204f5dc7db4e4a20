import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import axe from "axe-core";
import type { Browser, Page } from "puppeteer-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { builtEntry } from "../built.js";
import { sample } from "../samples.js";
import { all, enrolIn, keyOf, submit, takesIn } from "../store/material.js";
import { firefoxPage, hasFirefox, openFirefox } from "./openFirefox.js";
import { servedPage } from "./practisePage.js";
import { remoteStore } from "./remoteStore.js";
import { servedScripts } from "./servedScripts.js";
import { HOSTILE_COURSE } from "./shortCourse.js";

/** Tabs that are closed while they write. */
const KILLS = sample({ suite: 2, proof: 20 });

describe.skipIf(!hasFirefox)("in Firefox", () => {
  const folder = mkdtempSync(join(tmpdir(), "leeway-firefox-"));
  let browser: Browser;
  let scripts: Awaited<ReturnType<typeof servedScripts>>;
  let served: Awaited<ReturnType<typeof servedPage>>;

  beforeAll(async () => {
    builtEntry();
    writeFileSync(join(folder, "walk.yaml"), HOSTILE_COURSE);
    scripts = await servedScripts({ script: "store.ts" });
    served = await servedPage([join(folder, "walk.yaml")], join(folder, "page"));
    browser = await openFirefox();
  });
  afterAll(async () => {
    await browser?.close();
    await Promise.all([scripts?.close(), served?.close()]);
    rmSync(folder, { force: true, recursive: true });
  });

  const tab = async (): Promise<Page> => (await firefoxPage(browser, `${scripts.origin}/`)).page;

  test(`a store has every take that was acknowledged, once, after ${KILLS} tabs were closed in the middle of it, and when two tabs write at once`, async () => {
    const store = remoteStore(await tab(), "killed");
    await enrolIn(store, "tern");
    const acknowledged: string[] = [];
    const write = async (page: Page, name: string, takes: number): Promise<void> => {
      const writing = remoteStore(page, "killed");
      for (let i = 0; i < takes; i++) {
        await submit(writing, "tern", { take: `${name}-${i}` });
        acknowledged.push(`${name}-${i}`);
      }
    };
    for (let kill = 0; kill < KILLS; kill++) {
      const page = await tab();
      const work = write(page, `killed-${kill}`, Number.POSITIVE_INFINITY).catch(() => undefined);
      await new Promise((resolve) => setTimeout(resolve, 300 + 37 * kill));
      await page.close();
      await Promise.race([work, new Promise((resolve) => setTimeout(resolve, 3000))]);
    }
    const [one, other] = [await tab(), await tab()];
    await Promise.all([write(one, "one", 5), write(other, "other", 5)]);
    const takes = takesIn(await all(store.events(keyOf("tern"))));
    expect(acknowledged.length).toBeGreaterThanOrEqual(10);
    expect(acknowledged.filter((take) => !takes.includes(take))).toEqual([]);
    expect(new Set(takes).size).toBe(takes.length);
    expect(await all(store.verify())).toEqual([]);
    await Promise.all([one.close(), other.close()]);
  });

  test("the practice page leads from the first visit through every view, without a violation that axe-core finds, a complaint, or a request that strays; a browser that lets no sound begin is said to be one", async () => {
    const { page, complaints } = await firefoxPage(browser, served.address);
    await page.waitForSelector("#nick");
    await page.type("#nick", "<b>Knot</b>");
    await page.click("input[name=input][value=taps]");
    await page.click("button.go");
    await page.waitForSelector(".programme");
    const found: string[] = [];
    const views = [
      ["today", ".programme"],
      ["course", ".drill"],
      ["history", "#export"],
      ["sound", ".caution"],
      ["teacher", "#course-text"],
      ["drill/walk/1", "#start"],
    ] as const;
    for (const [view, shown] of views) {
      await page.goto(`${served.address}#/${view}`);
      await page.waitForSelector(shown);
      for (const each of await axeIn(page)) found.push(`${view}: ${each}`);
      if ((await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)) > 0)
        found.push(`${view}: too wide`);
    }
    // The riff is engraved, and its silence hatched.
    expect(await page.$$eval(".stand svg .f-hatch", (all) => all.length)).toBeGreaterThan(0);
    await page.click("#start");
    await page.waitForSelector("[data-code=SOUND_NOT_ALLOWED]");
    found.push(...(await axeIn(page)));
    expect(found).toEqual([]);
    // What was entered is there after the page is loaded again.
    await page.goto(`${served.address}#/today`);
    await page.reload();
    await page.waitForSelector(".programme");
    expect(await page.evaluate(() => (globalThis as { hurt?: unknown }).hurt)).toBeUndefined();
    expect(complaints).toEqual([]);
  });

  // Facts of a browser that the code works around; numbered, so that a workaround can name its fact. One that turns red is a fact no more.
  test("is as the hands expect it to be", async () => {
    const page = await tab();
    const facts = await page.evaluate(async () => {
      const context = new AudioContext();
      const resumed = await Promise.race([
        context.resume().then(() => "resumed"),
        new Promise((resolve) => setTimeout(() => resolve("waits"), 1500)),
      ]);
      return {
        "1: resume() waits for ever where no sound can be put out": resumed,
        "2: there is no playbackStats": !("playbackStats" in context),
        "3: outputLatency of a context that never ran is 0": context.outputLatency,
        "4: getOutputTimestamp() is there": typeof context.getOutputTimestamp,
        "5: storage is kept best effort until somebody is asked": await navigator.storage.persisted(),
        "6: the page is a secure context on loopback": isSecureContext,
      };
    });
    expect(facts).toEqual({
      "1: resume() waits for ever where no sound can be put out": "waits",
      "2: there is no playbackStats": true,
      "3: outputLatency of a context that never ran is 0": 0,
      "4: getOutputTimestamp() is there": "function",
      "5: storage is kept best effort until somebody is asked": false,
      "6: the page is a secure context on loopback": true,
    });
    await page.close();
  });
});

async function axeIn(page: Page): Promise<readonly string[]> {
  await page.evaluate(axe.source);
  return page.evaluate(async () => {
    const { axe: there } = globalThis as unknown as {
      axe: { run(): Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> };
    };
    const { violations } = await there.run();
    return violations.flatMap(({ id, nodes }) => nodes.map(({ html }) => `${id}: ${html.slice(0, 200)}`));
  });
}
