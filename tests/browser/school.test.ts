import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { readCurriculum } from "../../lib/curriculum/index.js";
import { rungs, scoreOf } from "../../lib/drill/index.js";
import type { Score } from "../../lib/schema/index.js";
import { type Running, startServe } from "../cli/serve/startServe.js";
import {
  axeOn,
  hasChromium,
  openChromium,
  PATIENCE,
  picture,
  tapAlong,
  type Visitor,
  visitor,
} from "./practisePage.js";
import { shortCourse } from "./shortCourse.js";

const TITLE = "A walk along the quay";
const TEXT = shortCourse(TITLE);
const CLASS = "Monday brass";

/** A browser notes each answer that refuses, which here is what is asked for. */
const EXPECTED = /Failed to load resource/;

/** The seconds of the notes of the first rung. */
function firstScore(): Score {
  const read = readCurriculum(TEXT, { file: "walk.yaml", readFile: () => undefined });
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return scoreOf(rungs(read.value.drills[0]!).at(0));
}

// A stranger's steps: everything is found by its role and its name.
describe.skipIf(!hasChromium)("a school", () => {
  const folder = mkdtempSync(join(tmpdir(), "leeway-school-page-"));
  let browser: Browser;
  let school: Running;
  let teacher: Visitor;
  let student: Visitor;

  beforeAll(async () => {
    writeFileSync(join(folder, "walk.yaml"), TEXT);
    const starting = startServe(["walk.yaml", "--store", "school.sqlite"], { folder });
    [browser, school] = await Promise.all([openChromium(), starting]);
    teacher = await visitor(browser, school.address, { width: 1280, height: 800 });
    student = await visitor(browser, school.address, { dark: true });
  }, 180_000);

  afterAll(async () => {
    await browser?.close();
    school?.child.kill("SIGTERM");
    await school?.ended;
    rmSync(folder, { recursive: true, force: true });
  });

  /** What is wrong with what a visitor sees now: axe, what is wider than the screen, requests that strayed, complaints of the page. */
  async function faultsOf(of: Visitor, name: string): Promise<readonly string[]> {
    await picture(of.page, name);
    const wider = await of.page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    const wide = wider > 0 ? [`${name}: ${wider} px wider than the screen`] : [];
    return [...(await axeOn(of.page)), ...wide, ...of.strayed, ...of.complaints.filter((said) => !EXPECTED.test(said))];
  }

  /** The same on a wide screen and on a phone. */
  async function faultsOnBoth(of: Visitor, name: string): Promise<readonly string[]> {
    const wide = await faultsOf(of, name);
    await of.page.setViewportSize({ width: 360, height: 740 });
    const narrow = await faultsOf(of, name);
    await of.page.setViewportSize({ width: 1280, height: 800 });
    return [...wide, ...narrow];
  }

  /** A link, made by the teacher and read from the screen. None stands there while it is being made, also when one was made before. */
  async function linkFor(name: string): Promise<string> {
    const { page } = teacher;
    await page.getByRole("link", { name: "People" }).click();
    await page.getByRole("heading", { name: "People" }).waitFor();
    await page.getByLabel("For whom").fill(name);
    let letGo = (): void => undefined;
    const asked = new Promise<void>((resolve) => {
      letGo = resolve;
    });
    await page.route("**/invitations", async (route) => {
      if (route.request().method() === "POST") await asked;
      await route.continue();
    });
    await page.getByRole("button", { name: "Make the link" }).click();
    const link = page.getByRole("textbox", { name: "Link", exact: true });
    expect(await link.count()).toBe(0);
    letGo();
    await link.waitFor({ timeout: PATIENCE });
    await page.unroute("**/invitations");
    return link.inputValue();
  }

  async function seesStudent(): Promise<Page> {
    const { page } = teacher;
    await page.getByRole("link", { name: "Class", exact: true }).click();
    await page.getByRole("heading", { name: CLASS, level: 1 }).waitFor();
    await page.reload();
    await page.getByRole("link", { name: "tern" }).first().click();
    await page.getByRole("heading", { name: "tern", level: 1 }).waitFor();
    return page;
  }

  test("lets its first teacher in by the link that the command prints, once the consent note was shown", async () => {
    const { page } = teacher;
    await page.goto(school.first!);
    await page.getByRole("heading", { name: `You are invited to ${TITLE}` }).waitFor();
    expect(await stands(page, "What the school keeps of you", "Come in")).toBe(true);
    expect(await faultsOnBoth(teacher, "join")).toEqual([]);
    await page.getByLabel("A name for you here").fill("avocet");
    await page.getByRole("button", { name: "Come in" }).click();
    await page.getByRole("heading", { name: "Your classes" }).waitFor();
    await page.getByLabel("Name of the class").fill(CLASS);
    expect(await faultsOnBoth(teacher, "classes")).toEqual([]);
    await page.getByRole("button", { name: "Begin it" }).click();
    await page.getByRole("heading", { name: "People" }).waitFor();
    await page.getByRole("link", { name: "Class", exact: true }).click();
    await page.getByText("Nobody is in this class yet").first().waitFor();
    expect(await faultsOnBoth(teacher, "class-empty")).toEqual([]);
  });

  test("lets a student in by a link that the teacher made, with a nickname, to practise the course of the class", async () => {
    const link = await linkFor("");
    expect(await faultsOnBoth(teacher, "people-link")).toEqual([]);
    const { page } = student;
    await page.goto(link);
    await page.getByLabel("A name for you here").fill("tern");
    expect(await faultsOf(student, "join-dark")).toEqual([]);
    await page.getByRole("button", { name: "Come in" }).click();
    const name = page.getByLabel("What shall we call you?");
    await name.waitFor();
    expect([await name.inputValue(), await name.isEditable()]).toEqual(["tern", false]);
    expect(await faultsOf(student, "choose-of-school")).toEqual([]);
    await page.getByRole("radio", { name: /^Tapping/ }).check();
    await page.getByRole("button", { name: "Begin with the first drill" }).click();
    await page.getByRole("heading", { name: "Today, tern" }).waitFor();
    await page.getByText("What you have played here since you joined the school is kept there too, as tern.").waitFor();
  });

  test("tells whoever opens a link that lets nobody in why, and what to do", async () => {
    const used = await linkFor("knot");
    const revoked = await linkFor("ruff");
    await teacher.page.getByRole("button", { name: "Take back the link for ruff" }).click();
    await teacher.page.getByText("The link was taken back.").waitFor({ state: "attached" });
    const guest = await visitor(browser, school.address);
    await guest.page.goto(used);
    await guest.page.getByText("You come in as knot.").waitFor();
    await guest.page.getByRole("button", { name: "Come in" }).click();
    await guest.page.getByLabel("What shall we call you?").waitFor();
    // Who came in by it is told that they are in; anybody else what became of it.
    await guest.page.goto(used);
    await guest.page.getByRole("heading", { name: "You are here already, as knot" }).waitFor();
    expect(await faultsOf(guest, "link-already")).toEqual([]);
    // A link for another, in the browser of somebody: said before it is used.
    await guest.page.goto(await linkFor("dunlin"));
    await guest.page.getByText("This browser is signed in as knot.").waitFor();
    expect(await faultsOf(guest, "link-other")).toEqual([]);
    await guest.context.close();
    const other = await visitor(browser, school.address);
    const ended = async (address: string, heading: string): Promise<void> => {
      await other.page.goto("about:blank");
      await other.page.goto(address);
      await other.page.getByRole("heading", { name: heading }).waitFor();
      await other.page.getByText("Ask your teacher for a new one.").waitFor();
      expect(await faultsOf(other, `link-${heading.split(" ").at(-1)}`)).toEqual([]);
    };
    await ended(used, "This link was used");
    await ended(revoked, "This link was taken back");
    await ended(`${used.slice(0, -4)}wxyz`, "This is not a link of this school");
    await ended(used.slice(0, used.lastIndexOf("/") + 4), "This is not a link of this school");
    await other.page.route("**/api/invitations/show", (route) =>
      route.fulfill({ status: 410, contentType: "application/problem+json", body: '{"code":"INVITATION_LATE"}' }),
    );
    await ended(revoked, "The time of this link is over");
    await other.context.close();
  });

  test("takes what a student plays, also what was played while it could not be reached, each take once", async () => {
    const { page, context } = student;
    const play = async (): Promise<void> => {
      await page.getByRole("link", { name: "Today" }).click();
      await page.getByRole("link", { name: /^Start with/ }).click();
      await page.getByRole("button", { name: /^Start the take/ }).waitFor();
      await tapAlong(page, firstScore());
      await page.getByRole("heading", { name: "Silences and landings" }).waitFor({ timeout: 60_000 });
    };
    await play();
    await page.getByText("is kept there too").waitFor();
    await page.evaluate(() => navigator.serviceWorker.ready);
    await page.reload();
    await page.getByText("is kept there too").waitFor();
    await context.setOffline(true);
    await play();
    await page.getByText("1 take is on this device only").waitFor();
    expect(await faultsOf(student, "take-waiting")).toEqual([]);
    // The window is closed and opened again before the school is back.
    await page.reload();
    await page.getByText("1 take is on this device only").waitFor();
    await context.setOffline(false);
    await page.getByText("is kept there too").waitFor({ timeout: 60_000 });
    const seen = await seesStudent();
    await seen
      .getByRole("heading", { name: /rung \d/ })
      .nth(1)
      .waitFor();
    expect(await seen.getByRole("heading", { name: /: .*rung \d/ }).count()).toBe(2);
    expect(await faultsOnBoth(teacher, "student")).toEqual([]);
    await seen.getByRole("link", { name: "Class", exact: true }).click();
    await seen.getByRole("heading", { name: "Everybody" }).waitFor();
    expect(await faultsOnBoth(teacher, "class")).toEqual([]);
  });

  test("lets a teacher set a rung with a reason, which the student's page has when it is opened again", async () => {
    const page = await seesStudent();
    await page.getByText("Set a rung").click();
    await page.getByRole("spinbutton", { name: "Rung" }).fill("3");
    await page.getByLabel("Reason").fill("Plays this at the quay band already.");
    expect(await faultsOnBoth(teacher, "set-rung")).toEqual([]);
    await page.getByRole("button", { name: "Set the rung" }).click();
    await page.getByText("set A walk along the quay to rung 3: Plays this at the quay band already.").waitFor();
    await student.page.reload();
    await student.page.getByRole("link", { name: "Course", exact: true }).click();
    await student.page
      .getByText(/rung 3 of 3/i)
      .first()
      .waitFor();
  });

  test("lets a teacher pause a student, and erase them once their name is written again", async () => {
    const page = await seesStudent();
    await page.locator("summary", { hasText: "Pause" }).click();
    await page.getByRole("button", { name: "tern is away" }).click();
    await page
      .getByText(/away since/)
      .first()
      .waitFor();
    await page.locator("summary", { hasText: "Pause" }).click();
    await page.getByRole("button", { name: "tern is back" }).click();
    await page
      .getByText(/away since/)
      .first()
      .waitFor({ state: "hidden" });
    await page.locator("summary", { hasText: /^Erase$/ }).click();
    await page.getByLabel("To erase, write tern").fill("knot");
    await page.getByRole("button", { name: "Erase everything" }).click();
    await page.getByText("This is not tern. Nothing was erased.").waitFor();
    expect(await faultsOnBoth(teacher, "erase")).toEqual([]);
    await page.getByLabel("To erase, write tern").fill("tern");
    await page.getByRole("button", { name: "Erase everything" }).click();
    await page.getByRole("heading", { name: "tern is erased" }).waitFor();
    expect(await faultsOnBoth(teacher, "erased")).toEqual([]);
    await student.page.reload();
    await student.page.getByText("you are not signed in there").waitFor();
    expect(await faultsOf(student, "erased-student")).toEqual([]);
  });

  test("lets a student erase themselves at the school, once their name is written, and says what was kept and where copies may be", async () => {
    const own = await visitor(browser, school.address);
    await own.page.goto(await linkFor("sanderling"));
    await own.page.getByRole("button", { name: "Come in" }).click();
    await own.page.getByRole("radio", { name: /^Tapping/ }).check();
    await own.page.getByRole("button", { name: "Begin with the first drill" }).click();
    await own.page.getByRole("heading", { name: "Today, sanderling" }).waitFor();
    await own.page.goto(`${school.address}/#/history`);
    await own.page.locator("summary", { hasText: "Erase" }).click();
    await own.page.getByText("The school has your takes, your rungs and your name.").waitFor();
    const field = own.page.getByLabel("To erase it at the school too, write sanderling");
    await field.fill("knot");
    await own.page.getByRole("button", { name: "Erase at the school and here" }).click();
    await own.page.getByText("This is not sanderling. Nothing was erased.").waitFor();
    expect(await faultsOf(own, "erase-own")).toEqual([]);
    // While the school is not reached nothing is erased here either.
    await own.context.setOffline(true);
    await field.fill("sanderling");
    await own.page.getByRole("button", { name: "Erase at the school and here" }).click();
    await own.page.getByText("Nothing was erased, here either").waitFor();
    await own.context.setOffline(false);
    await own.page.getByRole("button", { name: "Erase at the school and here" }).click();
    await own.page.getByText("The school has erased everything of sanderling").waitFor();
    expect(await faultsOf(own, "erased-own")).toEqual([]);
    await own.page.getByRole("link", { name: "To the first page" }).click();
    await own.page.getByText("you are not signed in there").waitFor();
    await own.context.close();
    await teacher.page.getByRole("link", { name: "People" }).click();
    await teacher.page.reload();
    await teacher.page.getByRole("heading", { name: "Students" }).waitFor();
    expect(await teacher.page.getByRole("link", { name: "sanderling" }).count()).toBe(0);
  });
});

/** Whether a text stands before another on a page. */
async function stands(page: Page, first: string, second: string): Promise<boolean> {
  const text = (await page.getByRole("main").textContent()) ?? "";
  return text.includes(first) && text.indexOf(first) < text.lastIndexOf(second);
}
