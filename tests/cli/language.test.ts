import { readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { parse } from "yaml";
import { success } from "../../lib/base/index.js";
import { loadWords } from "../../lib/words/index.js";
import { markedWords, unmarked } from "../words/marked.js";
import { saidBy, useFolder } from "./said.js";

const course = fileURLToPath(new URL("../../curricula/quayside-first-course.yaml", import.meta.url));

useFolder("leeway-language-");
writeFileSync("broken.yaml", "curriculum: quay\nedition: 1\ndrills: 7\n");

/** A command line in a language in which every message is marked. */
const marked = (...words: string[]) => saidBy(words, { load: async () => success(markedWords()) });

/** What stands outside every mark, without white space. */
async function outside(...words: string[]): Promise<string> {
  const { out, err } = await marked(...words);
  expect(out + err).toContain("⟦");
  return unmarked(out + err)
    .outside.replaceAll(/\s+/g, " ")
    .trim();
}

/** The words of a text: what is no drawing. */
function lettered(text: string): readonly string[] {
  return text.split(" ").filter((part) => /\p{L}/u.test(part));
}

describe("the language of a command line", () => {
  test("check leaves nothing outside the words of its language", async () => {
    expect(await outside("check", course)).toBe("");
    expect(await outside("check", "--rewrite", "broken.yaml")).toBe("");
  });

  test("assess, submit, enrol and standing leave nothing but names outside", async () => {
    const takes = fileURLToPath(new URL("../../curricula/takes", import.meta.url));
    const store = ["--store", "quay.db"];
    expect(lettered(await outside("assess", course, "half-bar", "1", `${takes}/half-bar.mid`))).toEqual([
      expect.stringMatching(/^half-bar\.mid#/),
    ]);
    expect(await outside("enrol", course, "tern", ...store)).toBe("");
    const week = ["monday", "tuesday", "wednesday", "thursday"].map((day) => `tern-steady-${day}`);
    expect(lettered(await outside("submit", "tern", `${takes}/steady-week.jsonl`, ...store))).toEqual(week);
    expect(await outside("standing", ...store)).toBe("");
  });

  test("rungs and gate leave nothing but settings and figures outside", async () => {
    const asWritten = (part: string) => part.includes("=");
    for (const words of [
      ["rungs", course, "half-bar"],
      ["rungs", course, "half-bar", "--to", "1"],
      ["gate", course, "steady"],
      ["gate", course, "half-bar"],
    ])
      expect(lettered(await outside(...words)).filter((part) => !asWritten(part))).toEqual([]);
  });

  test("of a problem, the place, the code and the lines of the file stay", async () => {
    expect(await outside("check", "broken.yaml")).toBe(
      "broken.yaml:1:1 MISSING_KEY curriculum: quay ^ -> broken.yaml:1:1 MISSING_KEY curriculum: quay ^ -> broken.yaml:2:10 WRONG_TYPE edition: 1 ^ -> broken.yaml:3:9 WRONG_TYPE drills: 7 ^ ->",
    );
  });

  test("is English when none is asked for, and any language of its kind", async () => {
    const plain = await saidBy(["check", course]);
    expect(await saidBy(["check", course, "--language", "en"])).toEqual(plain);
    expect(await saidBy(["check", course, "--language", "en-AU"])).toEqual(plain);
  });

  test("is loaded by its tag", async () => {
    const tags: string[] = [];
    const load = (tag: string) => {
      tags.push(tag);
      return loadWords("en");
    };
    await saidBy(["check", course, "--language", "de"], { load });
    expect(tags).toEqual(["de"]);
  });

  test("that there is none of is a problem, and nothing is done", async () => {
    const { status, out, err } = await saidBy(["check", course, "--language", "xx"]);
    expect({ status, out }).toEqual({ status: 1, out: "" });
    expect(err).toMatch(/^LANGUAGE_UNKNOWN {2}/);
    const json = await saidBy(["check", course, "--language", "xx", "--json"]);
    expect(JSON.parse(json.out)).toMatchObject({ problems: [{ code: "LANGUAGE_UNKNOWN" }] });
  });
});

const german = await loadWords("de");
const english = await loadWords("en");
if (!german.ok || !english.ok) throw new Error("words are missing");

describe("the language of a course", () => {
  const text = readFileSync(course, "utf8");
  writeFileSync("german.yaml", `language: de\n${text}`);
  writeFileSync("dutch.yaml", `language: nl\n${text}`);

  test("is that of every answer about it, with a note that nobody has read it", async () => {
    const take = fileURLToPath(new URL("../../curricula/takes/half-bar.mid", import.meta.url));
    const { out, err, status } = await saidBy(["assess", "german.yaml", "half-bar", "1", take]);
    expect(status).toBe(0);
    expect(out).toMatch(/Takt Stille/);
    expect(err).toContain(german.value.say("languages.unreviewed"));
  });

  test("gives way to the one that is asked for", async () => {
    const asked = await saidBy(["rungs", "german.yaml", "half-bar", "--language", "en"]);
    expect(asked).toEqual(await saidBy(["rungs", course, "half-bar"]));
  });

  test("of which there are no words is said, and the answer is in English", async () => {
    const { out, err, status } = await saidBy(["rungs", "dutch.yaml", "half-bar"]);
    expect(status).toBe(0);
    expect(out).toBe((await saidBy(["rungs", course, "half-bar"])).out);
    expect(err).toBe(`${english.value.say("languages.unknown-of-course", { found: "nl" })}\n`);
  });

  test.each([
    ['"language": de', ""],
    ["'language' : \"de\"", ""],
    ["? language\n: de", ""],
    ["language: !!str de # German", ""],
    ["language: >-\n  de", ""],
    ["language:\n  de", ""],
    ["language: *tag", "about: &tag de"],
  ])("is read however YAML has it: %s", async (line, before) => {
    const rest = before === "" ? text : text.replace(/^about:[\s\S]*?\n(?=[a-z])/m, `${before}\n`);
    writeFileSync("unusual.yaml", `${rest}\n${line}\n`);
    const said = await saidBy(["check", "unusual.yaml"]);
    expect(said.status, said.err).toBe(0);
    expect((await saidBy(["rungs", "unusual.yaml", "half-bar"])).out).toMatch(/ Tempo/);
  });

  test("is read in a course in flow style, and not where another text has the word", async () => {
    writeFileSync("flow.json", JSON.stringify(parse(`language: de\n${text}`), undefined, 1));
    expect((await saidBy(["rungs", "flow.json", "half-bar"])).out).toMatch(/ Tempo/);
    writeFileSync("another.yaml", `${text}\nauthor: "A\n  language: de"\n`);
    expect((await saidBy(["rungs", "another.yaml", "half-bar"])).out).not.toMatch(/ Tempo/);
  });

  test("is that of answers about a course that a store keeps, until another is asked for", async () => {
    const store = ["--store", "german.sqlite"];
    await saidBy(["enrol", "german.yaml", "tern", ...store, "--at", "2026-03-02T17:00:00Z"]);
    const week = fileURLToPath(new URL("../../curricula/takes/steady-week.jsonl", import.meta.url));
    for (const words of [
      ["submit", "tern", week, "--at", "2026-03-05T18:00:00Z"],
      ["standing"],
      ["standing", "tern"],
      ["place", "tern", "--drill", "half-bar", "--at", "2026-03-05T19:00:00Z"],
      ["plan", "tern", "--minutes", "20", "--today", "2026-03-06"],
      ["report", "--at", "2026-03-06T18:00:00Z"],
    ]) {
      const { out, err, status } = await saidBy([...words, ...store]);
      expect(status, err).toBe(0);
      expect(out, words.join(" ")).toMatch(/ Tempo|Takt|Riff plain|Gehör/);
      expect(err.split("\n").filter((line) => line === german.value.say("languages.unreviewed"))).toHaveLength(1);
      const asked = await saidBy([...words, ...store, "--language", "en"]);
      expect(asked.out, words.join(" ")).not.toMatch(/ Tempo|Takt|Riff plain|Gehör/);
    }
  });

  test("is one of those that are listed", async () => {
    const { out } = await saidBy(["words", "languages"]);
    for (const name of ["English", "Deutsch", "français", "español", "português", "italiano", "日本語"])
      expect(out).toContain(name);
    expect(out.match(/not yet read by a native speaker/g)).toHaveLength(6);
  });
});

test("a course that is named by an option has the language of the answer too", async () => {
  writeFileSync("kurs.yaml", readFileSync(course, "utf8").replace(/^title:/m, "language: de\ntitle:"));
  writeFileSync("tern.jsonl", "");
  const plan = (...words: string[]) =>
    saidBy(["plan", "tern", "--minutes", "20", "--journal", "tern.jsonl", "--course", "kurs.yaml", ...words]);
  const asked = await plan("--language", "de");
  expect(asked.out + asked.err).toContain("Deutsch");
  expect(await plan()).toEqual(asked);
});
