import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { readCurriculum } from "../../lib/curriculum/index.js";
import { rungs, scoreOf, settingsText } from "../../lib/drill/index.js";
import { enrol, submit } from "../../lib/practice/index.js";
import type { Score } from "../../lib/schema/index.js";
import { exportJournals, memoryStore } from "../../lib/store/index.js";
import { builtEntry } from "../built.js";
import { saidBy } from "../cli/said.js";
import { ROOT } from "../sources.js";
import { enrolOn, expectQuiet, hasChromium, openChromium, servedPage, tapAlong, visitor } from "./practisePage.js";
import { HOSTILE_COURSE } from "./shortCourse.js";

const SHIPPED = join(ROOT, "curricula/quayside-first-course.yaml");

function courseOf(text: string) {
  const read = readCurriculum(text, { file: "course.yaml", readFile: () => undefined });
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.value;
}

function firstScoreOf(course: ReturnType<typeof courseOf>, drill: string, mix: string): Score {
  const found = course.drills.find(({ name }) => name === drill)!;
  return scoreOf(rungs(found).at(0), mix);
}

describe.skipIf(!hasChromium)("takes on the practice page", () => {
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

  test("leads a student from enrolment by taps on the first rung of the shipped course to an advance, and lets them take it along", async () => {
    const course = courseOf(readFileSync(SHIPPED, "utf8"));
    const guest = await visitor(browser, shipped.address);
    const { page } = guest;
    await page.goto(shipped.address);
    await enrolOn(page, "Gull");
    // Two clean takes that were played elsewhere come as the file of a journal.
    const elsewhere = join(folder, "elsewhere.jsonl");
    writeFileSync(elsewhere, await journalOf(course, "Gull", 2));
    await page.goto(`${shipped.address}#/history`);
    await page.setInputFiles("#journal", elsewhere);
    await page.waitForSelector("text=/events added/");

    await page.goto(`${shipped.address}#/today`);
    await page.click("a.go");
    await page.waitForSelector("#start");
    await tapAlong(page, firstScoreOf(course, "steady", "play"));
    await page.waitForSelector("#decision");
    expect(await page.getAttribute("#decision", "data-what")).toBe("advance");
    expect(await page.textContent("#next-take")).toContain("Go on to rung 2");

    // Loaded again in the middle of a take: that take is gone and said to be, everything else is there.
    await page.click("#next-take");
    await page.click("#start");
    await page.waitForSelector("#pad");
    await page.reload();
    await page.waitForSelector("text=The last take was broken off");
    await page.goto(`${shipped.address}#/course`);
    await page.waitForSelector("text=you are on rung 2 of 8");

    await page.goto(`${shipped.address}#/history`);
    const saving = page.waitForEvent("download");
    await page.click("#export");
    const saved = join(folder, "saved.jsonl");
    await (await saving).saveAs(saved);
    const imported = await saidBy(["journal", "import", saved, "--store", join(folder, "school.sqlite"), "--json"]);
    expect(imported.err).toBe("");
    expect(JSON.parse(imported.out)).toMatchObject({ journals: 1, known: 0, problems: [] });
    const standing = await saidBy(["standing", "Gull", "--store", join(folder, "school.sqlite")]);
    expect(standing.out).toMatch(/steady: open\s+at tempo 80, riff plain \(advanced\)/);

    await page.click("summary:has-text('Erase everything')");
    await page.click("#erase");
    await page.waitForSelector("#nick");
    await page.reload();
    await page.waitForSelector("#nick");
    expect(await page.evaluate(eventsKept)).toBe(0);
    expectQuiet(guest);
    await guest.context.close();
  }, 240_000);

  test("moves nothing on the screen in a silence, and hurts nobody by what a course says", async () => {
    const guest = await visitor(browser, short.address);
    const { page } = guest;
    await page.goto(short.address);
    await enrolOn(page, "<b>Knot</b>");
    await page.goto(`${short.address}#/drill/walk/1`);
    await page.waitForSelector("#start");
    const tapping = tapAlong(page, firstScoreOf(courseOf(HOSTILE_COURSE), "walk", "play"));
    await page.waitForSelector("body.gone");
    const seen = await page.evaluate(
      () =>
        new Promise<{ changes: number; html: readonly string[] }>((resolve) => {
          let changes = 0;
          const before = document.body.outerHTML;
          const observer = new MutationObserver((all) => {
            if (document.body.classList.contains("gone")) changes += all.length;
          });
          observer.observe(document.body, { attributes: true, characterData: true, childList: true, subtree: true });
          // A bar lasts 1.6 s: the last look is still inside of it.
          setTimeout(() => {
            observer.disconnect();
            resolve({ changes, html: [before, document.body.outerHTML] });
          }, 900);
        }),
    );
    expect(seen.changes).toBe(0);
    expect(seen.html[1]).toBe(seen.html[0]);
    expect(seen.html[0]).toContain("gone");
    await tapping;
    await page.waitForSelector("#decision");
    expect(await page.getAttribute("#decision", "data-what")).toBe("advance");
    for (const view of ["course", "history", "today", "drill/walk/1", "choose"]) {
      await page.goto(`${short.address}#/${view}`);
      await page.waitForSelector("h1");
    }
    expect(await page.evaluate(() => (globalThis as { hurt?: unknown }).hurt)).toBeUndefined();
    expect(await page.locator("img").count()).toBe(0);
    expectQuiet(guest);
    await guest.context.close();
  });

  test("works as one file that a teacher saved on the page, opened by a double click", async () => {
    const guest = await visitor(browser, short.address);
    const { page } = guest;
    await page.goto(`${short.address}#/teacher`);
    await page.fill("#course-text", HOSTILE_COURSE);
    await page.waitForSelector("#preview-drill");
    const saving = page.waitForEvent("download");
    await page.click("#save-page");
    const file = join(folder, "handed-out.html");
    await (await saving).saveAs(file);
    expectQuiet(guest);
    await guest.context.close();
    const home = await visitor(browser, `file://${file}`);
    await home.page.goto(`file://${file}`);
    await enrolOn(home.page, "Gull");
    await home.page.goto(`file://${file}#/drill/walk/1`);
    await home.page.waitForSelector("#start");
    await tapAlong(home.page, firstScoreOf(courseOf(HOSTILE_COURSE), "walk", "play"));
    await home.page.waitForSelector("#decision");
    expect(await home.page.getAttribute("#decision", "data-what")).toBe("advance");
    expectQuiet(home);
    await home.context.close();
  });
});

/** The journal of a student with so many takes of the first rung, all on time. */
async function journalOf(course: ReturnType<typeof courseOf>, student: string, takes: number): Promise<string> {
  const store = memoryStore();
  const drill = course.drills[0]!;
  await enrol(store, student, { course, at: "2026-03-02T17:00:00Z" });
  for (let n = 1; n <= takes; n++) {
    const onsets = firstScoreOf(course, drill.name, "play").expected.map(({ at }) => at);
    const rung = settingsText(rungs(drill).at(0).settings);
    const take = { id: `elsewhere-${n}`, drill: drill.name, rung, mix: "play", onsets, zero: "bar-1" as const };
    const submitted = await submit(store, student, take, { course, at: `2026-03-02T17:1${n}:00Z` });
    if (!submitted.ok || submitted.value.finding?.verdict !== "within") throw new Error("not a clean take");
  }
  let text = "";
  for await (const piece of exportJournals(store, { student })) text += piece;
  return text;
}

/** How many events the database of the page has; runs in the page. */
function eventsKept(): Promise<number> {
  return new Promise((resolve, reject) => {
    const opening = indexedDB.open("leeway");
    opening.onerror = () => reject(opening.error);
    opening.onsuccess = () => {
      const counting = opening.result.transaction("events").objectStore("events").count();
      counting.onsuccess = () => resolve(counting.result);
    };
  });
}
