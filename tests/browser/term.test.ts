import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, Locator, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { random } from "../../lib/base/index.js";
import { readCurriculum } from "../../lib/curriculum/index.js";
import { type Running, startServe } from "../cli/serve/startServe.js";
import { playTo } from "../practice/quay.js";
import { sample } from "../samples.js";
import { hasChromium, openChromium, PATIENCE, type Visitor, visitor } from "./practisePage.js";
import { shortCourse } from "./shortCourse.js";

const SEED = process.env.LEEWAY_SEED ?? "quay";
const STUDENTS = sample({ suite: 4, proof: 30 });
const WEEKS = sample({ suite: 2, proof: 16 });
/** Takes of a student in a week. */
const TAKES = sample({ suite: 3, proof: 6 });
const TITLE = "A walk along the quay";
/** The tempi of the drill: its rungs, one each. */
const TEMPI = { from: 100, to: 160, by: 2 } as const;
const TEXT = shortCourse(TITLE)
  .replace("{ from: 150, to: 160, by: 5 }", `{ from: ${TEMPI.from}, to: ${TEMPI.to}, by: ${TEMPI.by} }`)
  .replace("gate: { clean: 1, of: 1 }", "gate: { clean: 2, of: 3 }\n    go-back: { after: 2 }");
/** A browser notes each answer that refuses, which here is that nobody is signed in yet. */
const EXPECTED = /Failed to load resource/;

/** What the answers of the school say of a student, added up apart from the library. */
interface Tally {
  readonly within: number;
  readonly beyond: number;
  readonly unclear: number;
  /** Number of the rung that the last decision left them on: by the tempo in its name. */
  readonly rung: number;
}

interface Asked {
  readonly method?: string;
  readonly body?: object;
}

async function textOf(of: Locator): Promise<string> {
  return (await of.textContent()) ?? "";
}

/** Number of a rung by the tempo in its settings. */
function numberOf(rung: string): number {
  return (Number(/tempo=(\d+)/.exec(rung)![1]) - TEMPI.from) / TEMPI.by + 1;
}

describe.skipIf(!hasChromium)("a class goes through a term", () => {
  const folder = mkdtempSync(join(tmpdir(), "leeway-term-page-"));
  const read = readCurriculum(TEXT, { file: "walk.yaml", readFile: () => undefined });
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  const course = read.value;
  let browser: Browser;
  let school: Running;
  let teacher: Visitor;
  let student: Visitor;
  let token = "";

  beforeAll(async () => {
    writeFileSync(join(folder, "walk.yaml"), TEXT);
    const starting = startServe(["walk.yaml", "--store", "school.sqlite"], { folder });
    [browser, school] = await Promise.all([openChromium(), starting]);
    teacher = await visitor(browser, school.address, { width: 1280, height: 900 });
    student = await visitor(browser, school.address, { width: 390, height: 800 });
  });
  afterAll(async () => {
    await browser?.close();
    school?.child.kill("SIGTERM");
    await school?.ended;
    rmSync(folder, { recursive: true, force: true });
  });

  /** Asks the school as an app does, and comes again when it is asked to wait. */
  async function ask<T>(path: string, as: string, { method = "GET", body }: Asked = {}): Promise<T> {
    for (;;) {
      const answer = await fetch(`${school.address}/api/${path}`, {
        method,
        headers: {
          authorization: `Bearer ${as}`,
          ...(body === undefined ? {} : { "content-type": "application/json" }),
        },
        ...(body === undefined ? {} : { body: JSON.stringify(body) }),
      });
      if (answer.ok) return (answer.status === 204 ? undefined : await answer.json()) as T;
      if (answer.status !== 429) throw new Error(`${method} ${path}: ${answer.status} ${await answer.text()}`);
      await new Promise((resolve) => setTimeout(resolve, 1000 * Number(answer.headers.get("retry-after"))));
    }
  }

  async function comeIn(secret: string, name: string): Promise<string> {
    const body = { secret, as: "token", name };
    return (await ask<{ token: string }>("invitations/accept", "nobody", { method: "POST", body })).token;
  }

  const classPath = `classes/${encodeURIComponent(TITLE)}`;
  const invited = async (name: string): Promise<string> =>
    (await ask<{ secret: string }>(`${classPath}/invitations`, token, { method: "POST", body: { name } })).secret;

  /** The lines of a list of the class page, by the name that each begins with. */
  async function linesOf(page: Page, list: string): Promise<ReadonlyMap<string, string>> {
    const items = await page.getByRole("region", { name: list }).getByRole("listitem").all();
    const lines = await Promise.all(
      items.map(async (item) => [await textOf(item.getByRole("heading").first()), await textOf(item)] as const),
    );
    return new Map(lines);
  }

  test(`${STUDENTS} students, ${WEEKS} weeks, ${STUDENTS * WEEKS * TAKES} takes over HTTP (seed ${SEED}): the page of the class shows what the answers add up to, and a student's page what is theirs`, async () => {
    token = await comeIn(school.first!.split("/").at(-1)!, "avocet");
    const names = Array.from({ length: STUDENTS }, (_, i) => `wader-${String(i + 1).padStart(2, "0")}`);
    const tokens = new Map<string, string>();
    for (const name of names) tokens.set(name, await comeIn(await invited(name), name));
    const tallies = new Map<string, Tally>();
    for (let week = 0; week < WEEKS; week++) {
      // The page of the class is open all the time, and is looked at once a week.
      await Promise.all(names.map((name) => practise(name, week)));
      if (week === 0) await openBoth(names[0]!);
      await look(names);
    }
    await studentSees(names[0]!);
    const said = [teacher, student].flatMap(({ complaints, strayed }) => [...complaints, ...strayed]);
    expect(said.filter((each) => !EXPECTED.test(each))).toEqual([]);

    async function practise(name: string, week: number): Promise<void> {
      const chance = random(`${SEED}/${name}/${week}`);
      const at = `students/${name}/courses/${course.name}`;
      for (let take = 0; take < TAKES; take++) {
        const standing = await ask<{ drills: { drill: string; rung: string; state: string }[] }>(
          `${at}/standing`,
          tokens.get(name)!,
        );
        const open = standing.drills.find(({ state }) => state === "open");
        if (open === undefined) return;
        const id = `${week}-${take}`;
        const how = chance.uniform() < 0.6 ? "in time" : "late";
        const body = playTo(course, { id, drill: open.drill, rung: open.rung, how });
        const send = () =>
          ask<{ finding: { verdict: "within" | "beyond" | "unclear" }; decision: { to?: string } }>(
            `${at}/takes/${id}`,
            tokens.get(name)!,
            { method: "PUT", body },
          );
        const answers = [await send()];
        // Some answers are lost, and the take is sent again.
        if (chance.uniform() < 0.3) answers.push(await send());
        for (const answer of answers) expect(answer).toEqual(answers[0]);
        const before = tallies.get(name) ?? { within: 0, beyond: 0, unclear: 0, rung: 1 };
        const { finding, decision } = answers[0]!;
        tallies.set(name, {
          ...before,
          [finding.verdict]: before[finding.verdict] + 1,
          rung: numberOf(decision.to ?? open.rung),
        });
      }
    }

    async function openBoth(first: string): Promise<void> {
      const link = (secret: string): string => `${school.address}/class/#/join/${secret}`;
      const again = await ask<{ secret: string }>(`${classPath}/invitations`, token, {
        method: "POST",
        body: { name: "avocet", role: "teacher" },
      });
      for (const [who, secret] of [
        [teacher, again.secret],
        [student, await invited(first)],
      ] as const) {
        await who.page.goto(link(secret));
        await who.page.getByRole("button", { name: "Come in" }).click();
      }
      await teacher.page.getByRole("heading", { name: "Your classes" }).waitFor({ timeout: PATIENCE });
      await student.page.getByLabel("What shall we call you?").waitFor({ timeout: PATIENCE });
    }

    async function look(all: readonly string[]): Promise<void> {
      const { page } = teacher;
      await page.goto(`${school.address}/class/#/class/${encodeURIComponent(TITLE)}`);
      await page.reload();
      await page.getByRole("heading", { name: "Everybody" }).waitFor({ timeout: PATIENCE });
      const everybody = await linesOf(page, "Everybody");
      expect([...everybody.keys()]).toEqual([...all]);
      // Where the last decision left them.
      for (const name of all)
        expect([name, everybody.get(name)]).toEqual([
          name,
          expect.stringContaining(`rung ${tallies.get(name)!.rung} of `),
        ]);
      // Drift and landings: as many takes as were answered, week for week in figures.
      await page.getByText("The same in figures").click();
      const rows = await page.locator(".figures tbody tr").allInnerTexts();
      const counts = [...tallies.values()].map(({ within, beyond, unclear }) => within + beyond + unclear);
      const played = counts.reduce((sum, each) => sum + each, 0);
      const shown = rows.map((row) => Number(row.split("\t")[1])).reduce((sum, each) => sum + each, 0);
      expect(shown).toBe(played);
      await page.getByRole("heading", { name: "Landings", exact: true }).waitFor();
    }

    async function journalOf(name: string): Promise<readonly { readonly kind: string }[]> {
      const at = `${school.address}/api/students/${name}/courses/${course.name}/journal`;
      const answer = await fetch(at, { headers: { authorization: `Bearer ${tokens.get(name)}` } });
      return (await answer.text())
        .trim()
        .split("\n")
        .map((line) => JSON.parse(line) as { readonly kind: string });
    }

    async function studentSees(name: string): Promise<void> {
      const { page } = student;
      await page.getByRole("radio", { name: /^Tapping/ }).check();
      await page.getByRole("button", { name: "Begin with the first drill" }).click();
      await page.getByRole("heading", { name: `Today, ${name}` }).waitFor({ timeout: PATIENCE });
      const { within, beyond, unclear, rung } = tallies.get(name)!;
      const journal = await journalOf(name);
      expect(journal.filter(({ kind }) => kind === "take assessed")).toHaveLength(within + beyond + unclear);
      await page.reload();
      await page.getByRole("link", { name: "Course", exact: true }).click();
      await page
        .getByText(new RegExp(`rung ${rung} of `, "i"))
        .first()
        .waitFor({ timeout: PATIENCE });
    }
  });
});
