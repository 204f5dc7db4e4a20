import { describe, expect, test } from "vitest";
import {
  english,
  languageTags,
  loadWords,
  speakerOf,
  takeInEnglish,
  type Words,
  wordsOf,
} from "../../lib/words/index.js";

async function load(tag: string): Promise<Words> {
  const loaded = await loadWords(tag);
  if (!loaded.ok) throw new Error(loaded.problems[0]!.message);
  return loaded.value;
}

describe("loadWords()", () => {
  test("loads each language there is", async () => {
    for (const tag of languageTags) expect((await load(tag)).language).toBe(tag);
    expect((await load("en")).say("take.bars", { bars: 2 })).toBe("2 bars");
  });

  test("answers a country with its language, as RFC 4647 looks tags up", async () => {
    expect((await load("en-NZ")).language).toBe("en");
    expect((await load("EN_gb")).language).toBe("en");
  });

  test("says which languages there are when there is none of that name", async () => {
    for (const [tag, remedy] of [
      ["tlh", "write one of en, de, es, fr, it, ja, pt"],
      ["xx", "write one of en, de, es, fr, it, ja, pt"],
      ["pl", "write one of en, de, es, fr, it, ja, pt"],
      ["deu", "write de"],
      ["fra", "write fr"],
    ] as const) {
      const refused = await loadWords(tag);
      expect(!refused.ok && refused.problems, tag).toMatchObject([{ code: "LANGUAGE_UNKNOWN", remedy }]);
    }
  });
});

describe("word()", () => {
  const words = wordsOf(english, takeInEnglish);
  const say = speakerOf(english, takeInEnglish);

  test("words a message and the phrases in it", () => {
    const { says, message } = say("take.nothing-in-silence", { length: say("take.half-bar").message });
    expect(says).toBe(
      "You played nothing through half a bar of silence: play on through it, so that your time there can be heard.",
    );
    expect(words.word(message, "")).toBe(says);
    expect(words.word(JSON.parse(JSON.stringify(message)), "")).toBe(says);
  });

  test.each([
    ["there is no message", undefined],
    ["the key is of another version", { key: "take.sung", parameters: {} }],
    ["the key is a name that every object has", { key: "toString", parameters: {} }],
    ["a parameter is missing", { key: "take.bars", parameters: {} }],
    ["a parameter is of another type", { key: "take.bars", parameters: { bars: "two" } }],
    [
      "a phrase is of another version",
      { key: "take.cannot-be-judged", parameters: { why: { key: "x.y", parameters: {} } } },
    ],
  ])("shows the sentence that came with it when %s", (_, message) => {
    expect(words.word(message, "Nothing was played.")).toBe("Nothing was played.");
  });
});
