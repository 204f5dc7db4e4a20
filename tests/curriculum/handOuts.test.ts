import { copyFileSync, existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { readRoute } from "../../lib/page/app/route.js";
import { cautionsIn, languageTags, listLanguages, loadWords, type Words } from "../../lib/words/index.js";
import { saidBy, useFolder } from "../cli/said.js";
import { ROOT } from "../sources.js";

const FOLDER = join(ROOT, "curricula", "hand-outs");
const pageOf = (tag: string): string => readFileSync(join(FOLDER, `${tag}.md`), "utf8");
const folder = useFolder("leeway-hand-outs-");

async function wordsIn(tag: string): Promise<Words> {
  const words = await loadWords(tag);
  if (!words.ok) throw new Error(words.problems[0]!.message);
  return words.value;
}

/** What the pages quote, in their order: words that students and teachers find on the practice page. */
const quoted = ({ say }: Words): readonly string[] => [
  say("page.hears", { by: "headphones" }),
  say("page.input", { by: "microphone" }),
  say("page.input", { by: "taps" }),
  say("page.check-sound"),
  say("page.begin"),
  say("page.find-my-rung"),
  say("page.listen-first"),
  say("page.start-take"),
  say("page.landed", { side: "early", ms: 40, error: 10 }),
  say("page.verdict", { verdict: "within" }),
  say("page.verdict", { verdict: "rushed" }),
  say("page.verdict", { verdict: "dragged" }),
  say("page.verdict", { verdict: "unclear" }),
  say("page.play-again"),
  say("page.save-journal"),
  say("page.for-teachers"),
  say("page.open-course"),
  say("page.course-fine"),
  say("page.hear"),
  say("page.save-page"),
];

const boldIn = (page: string): readonly string[] => [...page.matchAll(/\*\*(.+?)\*\*/g)].map(([, words]) => words!);
const codeIn = (page: string): readonly string[] => [...page.matchAll(/`(.+?)`/g)].map(([, code]) => code!);
const linksIn = (page: string): readonly string[] => [...page.matchAll(/\]\((.+?)\)/g)].map(([, link]) => link!);

describe("the hand-outs", () => {
  test("are in every language there is", () => {
    expect(readdirSync(FOLDER).sort()).toEqual(languageTags.map((tag) => `${tag}.md`).sort());
  });

  test.each(languageTags)("%s: fits a screen, in two parts with the same points", (tag) => {
    const page = pageOf(tag);
    expect(page.split("\n").length).toBeLessThanOrEqual(36);
    expect(page.match(/^## /gm)?.length).toBe(2);
    expect([...page.matchAll(/^(\d+)\. /gm)].map(([, n]) => Number(n))).toEqual([
      ...[1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11],
      ...[1, 2, 3, 4, 5, 6, 7],
    ]);
  });

  test.each(languageTags)(
    "%s: quotes the words of the practice page as they are there, and nothing else",
    async (tag) => {
      expect(boldIn(pageOf(tag))).toEqual(quoted(await wordsIn(tag)));
    },
  );

  test.each(languageTags)("%s: has the three cautions, word for word", async (tag) => {
    const lines = pageOf(tag).split("\n");
    const cautions = cautionsIn(await wordsIn(tag)).map((caution) => `- ${caution}`);
    expect(lines.filter((line) => line.startsWith("- "))).toEqual(cautions);
    expect(cautions.length).toBe(3);
  });

  test.each(listLanguages())("$tag: says whether a native speaker has read it", async ({ tag, isReviewed }) => {
    const note = `*${(await wordsIn(tag)).say("languages.unreviewed")}*`;
    expect(pageOf(tag).includes(note)).toBe(!isReviewed);
  });

  test.each(languageTags)("%s: names the same commands and links as the English page", (tag) => {
    expect(codeIn(pageOf(tag))).toEqual(codeIn(pageOf("en")));
    expect(linksIn(pageOf(tag))).toEqual(linksIn(pageOf("en")));
  });

  test("have commands that do what they say, one after the other", async () => {
    copyFileSync(join(ROOT, "curricula", "recipes", "one-beat.yaml"), join(folder, "course.yaml"));
    const text = readFileSync("course.yaml", "utf8");
    writeFileSync("next.yaml", text.replace("edition: 1.0.0", "edition: 1.1.0").replace("to: 92", "to: 100"));
    await saidBy(["enrol", "course.yaml", "NAME", "--store", "phone.db"]);
    writeFileSync("journal.jsonl", (await saidBy(["journal", "export", "--store", "phone.db"])).out);
    const commands = codeIn(pageOf("en")).filter((code) => code.startsWith("leeway ") && !code.includes(" serve "));
    expect(commands.map((command) => command.split(" ")[1])).toEqual(
      ["check", "rehearse", "publish", "journal", "enrol", "report", "check"], // as a teacher meets them
    );
    const outs: string[] = [];
    for (const command of commands) {
      const words = command.split(" ").slice(1);
      // A whole folder takes a minute: the tests of `publish` make one.
      if (words[0] === "publish") {
        outs.push("");
        continue;
      }
      const more = words[0] === "rehearse" ? ["--students", "50", "--workers", "1", "--keep", "kept"] : [];
      const { status, out, err } = await saidBy([...words, ...more]);
      expect(status, `${command}\n${err}`).toBe(0);
      outs.push(out);
    }
    expect(outs[0]).toContain("no problems");
    expect(outs[5]).toMatch(/stuck\n/);
    expect(outs[5]).toMatch(/NAME\s+one-beat\s+1 of 3/);
    expect(outs[6]).toContain("3 rungs keep credit; 1 new");
    expect(existsSync("class.db")).toBe(true);
  }, 120_000);

  test("have an address of a drill that the practice page reads", () => {
    const address = codeIn(pageOf("en")).find((code) => code.includes("#"))!;
    expect(readRoute(address.slice(address.indexOf("#")))).toMatchObject({ view: "drill", drill: "NAME", rung: "1" });
  });
});
