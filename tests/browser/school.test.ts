import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { type Running, startServe } from "../cli/serve/startServe.js";
import { ROOT } from "../sources.js";
import { axeOn, hasChromium, openChromium, picture, type Visitor, visitor } from "./practisePage.js";

const COURSE = join(ROOT, "curricula/quayside-first-course.yaml");
const TITLE = "Quayside first course";

/** A browser notes each answer that refuses, which here is what is asked for. */
const EXPECTED = /Failed to load resource/;

describe.skipIf(!hasChromium)("a school", () => {
  const folder = mkdtempSync(join(tmpdir(), "leeway-school-page-"));
  let browser: Browser;
  let school: Running;
  let teacher: Visitor;

  beforeAll(async () => {
    [browser, school] = await Promise.all([
      openChromium(),
      startServe([COURSE, "--store", "school.sqlite"], { folder }),
    ]);
    teacher = await visitor(browser, school.address, { width: 1280, height: 800 });
  }, 180_000);

  afterAll(async () => {
    await browser?.close();
    school?.child.kill("SIGTERM");
    await school?.ended;
    rmSync(folder, { recursive: true, force: true });
  });

  /** What is wrong with what a visitor sees now: axe, requests that strayed, complaints of the page. */
  async function faultsOf({ page, strayed, complaints }: Visitor): Promise<readonly string[]> {
    return [...(await axeOn(page)), ...strayed, ...complaints.filter((said) => !EXPECTED.test(said))];
  }

  /** A link for a student, made by the teacher and read from the screen. */
  async function linkFor(name: string): Promise<string> {
    const { page } = teacher;
    await page.getByRole("link", { name: "People" }).click();
    await page.getByLabel("For whom").fill(name);
    await page.getByRole("button", { name: "Make the link" }).click();
    const link = page.getByRole("textbox", { name: "Link", exact: true });
    await link.waitFor();
    return link.inputValue();
  }

  test("lets its first teacher in by the link that the command prints, once the consent note was shown", async () => {
    const { page } = teacher;
    await page.goto(school.first!);
    await page.getByRole("heading", { name: `You are invited to ${TITLE}` }).waitFor();
    await picture(page, "join-teacher");
    expect(await before(page, "What the school keeps of you", "Come in")).toBe(true);
    expect(await faultsOf(teacher)).toEqual([]);
    await page.getByLabel("A name for you here").fill("avocet");
    await page.getByRole("button", { name: "Come in" }).click();
    await page.getByRole("heading", { name: "Your classes" }).waitFor();
    await picture(page, "classes");
    expect(await faultsOf(teacher)).toEqual([]);
    await page.getByRole("link", { name: TITLE }).click();
    await page.getByRole("heading", { name: TITLE, level: 1 }).waitFor();
    expect(await page.getByText("Nobody is in this class yet").isVisible()).toBe(true);
    expect(await faultsOf(teacher)).toEqual([]);
  });

  test("lets a student in by a link that the teacher made, with a nickname, and leads to the practice page", async () => {
    const link = await linkFor("");
    expect(await faultsOf(teacher)).toEqual([]);
    await picture(teacher.page, "people");
    const student = await visitor(browser, school.address, { dark: true });
    await student.page.goto(link);
    await student.page.getByRole("button", { name: "Come in" }).waitFor();
    await picture(student.page, "join-student");
    expect(await faultsOf(student)).toEqual([]);
    await student.page.getByLabel("A name for you here").fill("tern");
    await student.page.getByRole("button", { name: "Come in" }).click();
    await student.page.waitForURL(`${school.address}/**`);
    await student.page.getByLabel("What shall we call you?").waitFor();
    expect(await student.page.getByText(TITLE).first().isVisible()).toBe(true);
    // The link was used: who came in by it is told that they are in, and anybody else what became of it.
    await student.page.goto(link);
    await student.page.getByRole("heading", { name: "You are here already, as tern" }).waitFor();
    const other = await visitor(browser, school.address);
    await other.page.goto(link);
    await other.page.getByRole("heading", { name: "This link was used" }).waitFor();
    expect(await faultsOf(other)).toEqual([]);
    await Promise.all([student.context.close(), other.context.close()]);
  });
});

/** Whether a text stands before another on a page. */
async function before(page: Page, first: string, second: string): Promise<boolean> {
  const text = await page.locator("main").innerText();
  return text.indexOf(first) >= 0 && text.indexOf(first) < text.indexOf(second);
}
