import { describe, expect, test } from "vitest";
import { fullDateText } from "../../lib/render/dateText.js";
import { languageNotes, listLanguages, loadWords, type Words } from "../../lib/words/index.js";
import { inputsOf, readCatalogues } from "./catalogues.js";
import { LOANS, NOTE_VALUES, SIGNS, TERMS } from "./terms.js";

const catalogues = await readCatalogues();
const english = catalogues.get("en")!;
const others = [...catalogues].filter(([tag]) => tag !== "en");
const topicOf = (key: string): string => key.split(".")[0]!;

/** What is read of a message: its texts, one for each of its variants, with $ before parameters. */
function textsOf(source: string): readonly string[] {
  const variants = Array.from(source.matchAll(/\{\{((?:\{[^}]*\}|[^}])*)\}\}/g), ([, text]) => text!);
  return (variants.length > 0 ? variants : [source]).map((text) => text.replaceAll(/\{\$(\w+)[^}]*\}/g, "{$1}"));
}

/** A text without its parameters. */
const bare = (text: string): string => text.replaceAll(/\{[^}]*\}/g, "").trim();

/** The letters of a text alone. */
const letters = (text: string): string =>
  bare(text)
    .replaceAll(/[^\p{L}]+/gu, " ")
    .trim();

test("there are six languages beside English, none of which a native speaker has read", () => {
  expect(others.map(([tag]) => tag)).toEqual(["de", "es", "fr", "it", "ja", "pt"]);
  for (const { tag, isReviewed } of listLanguages()) expect(isReviewed, tag).toBe(tag === "en");
});

describe.each(others)("the words of %s", (tag, messages) => {
  test("are whole in each of their topics: the same messages with the same parameters", () => {
    const topics = new Set([...messages.keys()].map(topicOf));
    expect([...messages.keys()].sort()).toEqual([...english.keys()].filter((key) => topics.has(topicOf(key))).sort());
    for (const [key, { message }] of messages)
      expect([...inputsOf(message).keys()].sort(), key).toEqual([...inputsOf(english.get(key)!.message).keys()].sort());
  });

  test("have every topic", () => {
    expect(new Set([...messages.keys()].map(topicOf))).toEqual(new Set([...english.keys()].map(topicOf)));
  });

  test("choose by the same values, and word each that English words apart", () => {
    const valuesOf = (source: string): readonly string[] =>
      Array.from(source.matchAll(/\.input \{\$(\w+)[^}]*@of=\|([^|]*)\|/g), ([, name, of]) => `${name}: ${of}`);
    const variantsOf = (source: string): ReadonlySet<string> => {
      const rows = source.split("\n").filter((line) => /^\s*[^.].*\{\{/.test(line));
      const plural = ["zero", "one", "two", "few", "many", "other", "*"];
      const keys = rows.flatMap((row) => row.slice(0, row.indexOf("{{")).trim().split(/\s+/));
      return new Set(keys.filter((key) => !plural.includes(key) && !/^\d*$/.test(key)));
    };
    for (const [key, { source }] of messages) {
      const inEnglish = english.get(key)!.source;
      expect(valuesOf(source).toSorted(), key).toEqual(valuesOf(inEnglish).toSorted());
      const told = variantsOf(source);
      expect(
        [...variantsOf(inEnglish)].filter((variant) => !told.has(variant)),
        key,
      ).toEqual([]);
    }
  });

  test("show every parameter that the English message shows", () => {
    const shown = (source: string): readonly string[] =>
      [
        ...new Set(textsOf(source).flatMap((text) => Array.from(text.matchAll(/\{(\w+)\}/g), ([, name]) => name!))),
      ].sort();
    for (const [key, { source }] of messages) expect(shown(source), key).toEqual(shown(english.get(key)!.source));
  });

  test("are English nowhere but where a reason is given", () => {
    const same = [...messages].flatMap(([key, { source }]) => {
      const ours = new Set(textsOf(english.get(key)!.source).map(letters));
      return textsOf(source)
        .map(letters)
        .filter((text) => /\p{L}{2}/u.test(text) && ours.has(text));
    });
    const allowed = [...SIGNS, ...LOANS[tag]!];
    expect([...new Set(same)].filter((text) => !allowed.includes(text)).sort()).toEqual([]);
    expect(LOANS[tag]!.filter((text) => !same.includes(text))).toEqual([]);
  });

  test("have no trace of a machine: no English words, doubled blanks, broken brackets, marks of another language or lost ends", () => {
    for (const [key, { source }] of messages) {
      const ends = (text: string): string => /[.。?？!！:：;；,、]$/.exec(text)?.[0].replace("。", ".") ?? "";
      const endsInEnglish = textsOf(english.get(key)!.source).some((text) => /[.?]$/.test(text));
      for (const text of textsOf(source)) {
        const said = bare(text);
        expect(said, key).not.toMatch(/\b(?:the|and|of|with|you|your|from|which|this|that|are|is not)\b/i);
        expect(text, key).not.toMatch(/&\w+;|undefined|\[object|TODO|\\n/);
        if (!/\S {2,}\S/.test(english.get(key)!.source)) expect(text.trim(), key).not.toMatch(/ {2}/);
        const count = (sign: string): number => text.split(sign).length;
        expect([count("("), count("（"), count("«")], key).toEqual([count(")"), count("）"), count("»")]);
        if (tag === "es" && text.includes("?")) expect(text, key).toMatch(/¿/);
        if (tag === "ja" && /\p{L}{3}/u.test(said))
          expect(said, key).toMatch(/[\u3040-\u30ff\u4e00-\u9fff]|^(?:MIDI|Esc)$/);
        if (tag !== "ja") expect(said, key).not.toMatch(/[\u3000-\u30ff\u4e00-\u9fff：（）]/);
        if (endsInEnglish && topicOf(key) === "take" && !key.includes("unmeasured"))
          expect([".", "?", "？"], `${key}: ${text}`).toContain(ends(text));
      }
    }
  });

  test("name note values and the terms of the trade as musicians of the language do", async () => {
    const loaded = await loadWords(tag);
    if (!loaded.ok) throw new Error(loaded.problems[0]!.message);
    const words: Words = loaded.value;
    const values = NOTE_VALUES[tag]!;
    const swing = (["half", "quarter", "eighth", "sixteenth", "thirty-second"] as const).map((notes) =>
      words.say("sound.swing-of", { ratio: "2:1", notes }),
    );
    swing.forEach((said, i) => {
      expect(said.toLowerCase()).toContain(values[i + 1]!.toLowerCase());
    });
    expect(words.say("sheet.note", { value: "whole" }).toLowerCase()).toContain(values[0]!.toLowerCase().slice(0, -1));
    const all = [...messages].map(([, { source }]) => source.toLowerCase()).join("\n");
    for (const term of TERMS[tag]!) expect(all).toContain(term);
  });

  test("write the days of a report as the Unicode CLDR does, by way of Intl", async () => {
    const loaded = await loadWords(tag);
    if (!loaded.ok) throw new Error(tag);
    const written = new Intl.DateTimeFormat(tag, {
      ...{ day: "numeric", month: "short", year: "numeric" },
      timeZone: "UTC",
    });
    for (let month = 0; month < 12; month++) {
      const day = Date.UTC(2026, month, 5);
      expect(fullDateText(day / 86_400_000, loaded.value)).toBe(written.format(day));
    }
  });

  test("say once that nobody has read them and what is English, in themselves", async () => {
    const [whole, withoutProblems] = await Promise.all([loadWords(tag), loadWords(tag, { problems: false })]);
    if (!whole.ok || !withoutProblems.ok) throw new Error(tag);
    const unreviewed = whole.value.say("languages.unreviewed");
    expect(languageNotes(whole.value)).toEqual([unreviewed]);
    expect(unreviewed).not.toBe(textsOf(english.get("languages.unreviewed")!.source)[0]);
    const { say, word } = withoutProblems.value;
    expect(languageNotes(withoutProblems.value)).toEqual([unreviewed, say("languages.partly")]);
    // What was not loaded is said in English, and not left out.
    expect(say("cli.demo-check")).toBe(textsOf(english.get("cli.demo-check")!.source)[0]);
    const written = { key: "pattern-problem.bar-empty-remedy", parameters: {} };
    expect(word(written, "write rest")).toBe("write rest");
    expect(whole.value.word(written, "write rest")).not.toBe("write rest");
  });
});
