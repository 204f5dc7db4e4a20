import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { rungs, scoreOf } from "../../lib/drill/index.js";
import { builtEntry } from "../built.js";
import { saidBy } from "../cli/said.js";
import { drumRecording, type RecordedCourse, recordedCourse } from "../recording/recordedCourse.js";
import { enrolOn, expectQuiet, hasChromium, openChromium, servedPage, visitor } from "./practisePage.js";

/** A sound that the page began: seconds of its context, length in samples, whether it is of two channels, and its loudest sample. */
interface Begun {
  readonly when: number;
  readonly length: number;
  readonly isStereo: boolean;
  readonly loudest: number;
}

/** Notes every sound that a page begins; runs in the page before its scripts. */
function noteSounds(): void {
  const begun: Begun[] = [];
  Object.assign(globalThis, { begun });
  const { start } = AudioBufferSourceNode.prototype;
  AudioBufferSourceNode.prototype.start = function (when = 0, ...rest) {
    const { buffer } = this;
    if (buffer !== null) {
      const loudest = buffer.getChannelData(0).reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
      begun.push({ when, length: buffer.length, isStereo: buffer.numberOfChannels === 2, loudest });
    }
    start.call(this, when, ...rest);
  };
}

describe.skipIf(!hasChromium)("a page of a course whose drums were recorded", () => {
  const drums = drumRecording();
  let browser: Browser;
  let recorded: RecordedCourse;
  beforeAll(async () => {
    builtEntry();
    const kit = `{ recording: kit.wav, tempo: 96, starts: ${drums.starts.toFixed(6)} s }`;
    recorded = recordedCourse(kit, { "kit.wav": drums.wav }, "ladders: [ { tempo: [96, 108] } ]");
    browser = await openChromium();
  });
  afterAll(async () => {
    await browser?.close();
    recorded?.remove();
  });

  /** Plays the second rung into its first silence; gives what sounded, from bar 1 on. */
  async function heardOn(page: Page, address: string): Promise<{ begun: readonly Begun[]; zero: number }> {
    await page.goto(`${address}#/drill/gap/2`);
    await page.waitForSelector("#start");
    await page.click("#start");
    const { dropouts } = scoreOf(rungs(recorded.course.drills[0]!).at(1), "play");
    await page.waitForFunction(
      (pieces) =>
        (globalThis as unknown as { begun: Begun[] }).begun.filter(({ isStereo }) => isStereo).length >= pieces,
      Math.floor((dropouts[0]!.from / 0.25) * 0.9),
    );
    const begun = await page.evaluate(() => (globalThis as unknown as { begun: Begun[] }).begun);
    const zero = Math.min(...begun.filter(({ isStereo }) => isStereo).map(({ when }) => when));
    return { begun, zero };
  }

  test("plays the recording, stretched to the rung, and no note in its place", async () => {
    const folder = join(recorded.folder, "page");
    const served = await servedPage([join(recorded.folder, "course.yaml")], folder);
    const index = JSON.parse(readFileSync(join(folder, "courses/1-recordings.json"), "utf8")) as { speed: number }[];
    // One file for each tempo.
    expect(index.map(({ speed }) => speed)).toEqual([1, 1.125]);
    const guest = await visitor(browser, served.address);
    await guest.context.addInitScript(noteSounds);
    await guest.page.goto(served.address);
    await enrolOn(guest.page, "Gull");
    const { begun, zero } = await heardOn(guest.page, served.address);
    const pieces = begun.filter(({ isStereo }) => isStereo);
    expect(Math.max(...pieces.map(({ loudest }) => loudest))).toBeGreaterThan(0.05);
    // They follow on one another without a gap, at most a quarter of a second long and its seam.
    for (const [i, { when, length }] of pieces.slice(1).entries()) {
      const apart = when - pieces[i]!.when;
      expect(apart).toBeGreaterThan(0.1);
      expect(apart).toBeLessThan(0.2501);
      expect(length / 44_100).toBeLessThan(0.29);
    }
    // Nothing else sounds from bar 1 on: the student's part is off, and the drums are the recording.
    expect(begun.filter(({ when, isStereo }) => !isStereo && when >= zero - 0.001)).toEqual([]);
    expectQuiet(guest);
    await guest.context.close();
    await served.close();
  });

  test("says in words at the drill that its recording is not there, where it could not be read", async () => {
    const folder = join(recorded.folder, "lacking");
    // As the server of a school leaves it out.
    const changed = (): void => writeFileSync(join(folder, "courses/1-recordings.json"), "[]");
    const served = await servedPage([join(recorded.folder, "course.yaml")], folder, { changed });
    const guest = await visitor(browser, served.address);
    await guest.page.goto(served.address);
    await enrolOn(guest.page, "Dunlin");
    for (const mix of ["play", "listen"]) {
      await guest.page.goto("about:blank");
      await guest.page.goto(`${served.address}#/drill/gap/2?mix=${mix}`);
      await guest.page.waitForSelector("#start");
      await guest.page.click("#start");
      const said = await guest.page.waitForSelector('[data-code="RECORDING_NOT_HERE"]');
      expect(await said.textContent()).toContain("The teacher's recording that sounds in this drill is not here");
      expect(await guest.page.isVisible("#start")).toBe(true);
    }
    expectQuiet(guest);
    await guest.context.close();
    await served.close();
  });

  test("is one file to hand out, too", async () => {
    const file = join(recorded.folder, "hand-out.html");
    const made = await saidBy(["page", join(recorded.folder, "course.yaml"), "--single", "--out", file]);
    expect(made.status, made.err).toBe(0);
    const guest = await visitor(browser, `file://${file}`);
    await guest.context.addInitScript(noteSounds);
    await guest.page.goto(`file://${file}`);
    await enrolOn(guest.page, "Tern");
    const { begun } = await heardOn(guest.page, `file://${file}`);
    expect(begun.filter(({ isStereo }) => isStereo).length).toBeGreaterThan(20);
    expectQuiet(guest);
    await guest.context.close();
  });
});
