import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { readCurriculum } from "../../lib/curriculum/index.js";
import { rungs, scoreOf } from "../../lib/drill/index.js";
import type { Score } from "../../lib/schema/index.js";
import { builtEntry } from "../built.js";
import { saidBy } from "../cli/said.js";
import {
  axeOn,
  enrolOn,
  expectQuiet,
  hasChromium,
  openChromium,
  picture,
  servedPage,
  tapAlong,
  visitor,
} from "./practisePage.js";
import { shortCourse } from "./shortCourse.js";

const TEXT = shortCourse("A walk along the quay");

function firstScore(): Score {
  const read = readCurriculum(TEXT, { file: "walk.yaml", readFile: () => undefined });
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return scoreOf(rungs(read.value.drills[0]!).at(0), "play");
}

// What goes wrong on the device of a student: no room, no microphone, the page open twice.
describe.skipIf(!hasChromium)("the practice page on a hard day", () => {
  const folder = mkdtempSync(join(tmpdir(), "leeway-hard-days-"));
  let browser: Browser;
  let served: Awaited<ReturnType<typeof servedPage>>;
  beforeAll(async () => {
    builtEntry();
    writeFileSync(join(folder, "walk.yaml"), TEXT);
    served = await servedPage([join(folder, "walk.yaml")], join(folder, "page"));
    browser = await openChromium();
  });
  afterAll(async () => {
    await browser?.close();
    await served?.close();
    rmSync(folder, { force: true, recursive: true });
  });

  const openDrill = async (page: Page): Promise<void> => {
    await page.goto(`${served.address}#/drill/walk/1`);
    await page.waitForSelector("#start");
  };

  test("has no violation that axe-core finds in the middle of a take; holds a take that there is no room for, and keeps it once when there is; a second tab, opened before, counts its own beside it", async () => {
    const guest = await visitor(browser, served.address);
    const { page, context } = guest;
    await page.goto(served.address);
    await enrolOn(page, "Gull");
    await openDrill(page);
    const second = await context.newPage();
    await openDrill(second);

    // No room from now on: the database says so at the row of the journal, when the event has found room.
    await page.evaluate(() => {
      const { put } = IDBObjectStore.prototype;
      IDBObjectStore.prototype.put = function (this: IDBObjectStore, ...given: [unknown, IDBValidKey?]) {
        if ((globalThis as { full?: boolean }).full === true && this.name === "journals")
          throw new DOMException("full", "QuotaExceededError");
        return put.apply(this, given);
      };
      Object.assign(globalThis, { full: true });
    });
    const playing = tapAlong(page, firstScore());
    await page.waitForSelector("#pad");
    const found = [...(await axeOn(page))];
    await picture(page, "playing");
    await page.waitForSelector("body.gone");
    found.push(...(await axeOn(page)));
    await picture(page, "playing-silence");
    await playing;
    await page.waitForSelector("text=Not kept yet");
    found.push(...(await axeOn(page)));
    await picture(page, "take-not-kept");
    expect(found).toEqual([]);
    expect(await page.locator("[data-code=STORE_FULL]").count()).toBe(1);

    const saving = page.waitForEvent("download");
    await page.getByRole("button", { name: "Save the take as a file" }).click();
    const file = join(folder, "take.json");
    await (await saving).saveAs(file);
    expect(JSON.parse(readFileSync(file, "utf8"))).toMatchObject({ drill: "walk", onsets: expect.any(Array) });

    // Still no room; then there is.
    const told = (await page.$("[data-code=STORE_FULL]"))!;
    await page.getByRole("button", { name: "Try again" }).click();
    // The problem is told anew when the store has answered; before that there must be no room yet.
    await told.waitForElementState("hidden");
    await page.waitForSelector("[data-code=STORE_FULL]");
    await page.waitForSelector("text=Not kept yet");
    await page.evaluate(() => Object.assign(globalThis, { full: false }));
    await page.getByRole("button", { name: "Try again" }).click();
    await page.waitForSelector("#decision");
    expect(await page.getAttribute("#decision", "data-what")).toBe("advance");

    // The other tab still shows the first rung, which was left meanwhile.
    await tapAlong(second, firstScore());
    await second.waitForSelector("#decision");
    expect(await second.getAttribute("#decision", "data-what")).toBe("hold");
    await second.goto(`${served.address}#/course`);
    await second.waitForSelector("text=/rung 2 of 3/i");

    await page.goto(`${served.address}#/history`);
    const exporting = page.waitForEvent("download");
    await page.click("#export");
    const journal = join(folder, "journal.jsonl");
    await (await exporting).saveAs(journal);
    const kinds = readFileSync(journal, "utf8")
      .trim()
      .split("\n")
      .map((line) => (JSON.parse(line) as { kind: string }).kind);
    expect(kinds.filter((kind) => kind === "take assessed")).toHaveLength(2);
    expect(kinds.filter((kind) => kind === "advanced")).toHaveLength(1);
    const imported = await saidBy(["journal", "import", journal, "--store", join(folder, "school.sqlite"), "--json"]);
    expect(JSON.parse(imported.out)).toMatchObject({ journals: 1, problems: [] });
    expectQuiet(guest);
    await context.close();
  }, 240_000);

  test.each([
    { dark: false, width: 360, height: 740 },
    { dark: true, width: 1280, height: 800 },
  ])(
    "has no violation that axe-core finds while a version is listened to (dark: $dark, $width px), and says who refused the microphone, what to do, and that taps do",
    async (look) => {
      const guest = await visitor(browser, served.address, look);
      const { page, context } = guest;
      // A machine without a microphone says so before anybody is asked: the refusal is made up.
      await context.addInitScript(() => {
        navigator.mediaDevices.getUserMedia = () => Promise.reject(new DOMException("no", "NotAllowedError"));
      });
      await page.goto(served.address);
      await page.fill("#nick", "Gull");
      await page.check("input[name=input][value=microphone]");
      await page.click("button.go");
      await page.waitForSelector(".programme");
      await openDrill(page);
      await page.click("#start");
      await page.waitForSelector("[data-code=MICROPHONE_REFUSED]");
      const found = [...(await axeOn(page))];
      expect(await page.textContent("[data-code=MICROPHONE_REFUSED]")).toContain("or tap");
      await picture(page, "microphone-refused");
      // What was to be played is there still, and can be listened to.
      await page.getByRole("radio", { name: "listen" }).check();
      await page.click("#start");
      await page.waitForSelector("body.playing");
      found.push(...(await axeOn(page)));
      await picture(page, "listening");
      await page.keyboard.press("Escape");
      await page.waitForSelector("#start");
      expect(found).toEqual([]);
      expectQuiet(guest);
      await guest.context.close();
    },
  );
});
