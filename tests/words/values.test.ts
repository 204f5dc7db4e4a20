import { describe, expect, test } from "vitest";
import { KNOWN_INSTRUMENTS } from "../../lib/pattern/index.js";
import { keyTold, languageTags, loadWords, tonicTold, wordInstrument, wordSettings } from "../../lib/words/index.js";
import { must } from "../time/shorthand.js";

const wordsIn = async (tag: string) => must(await loadWords(tag));
const OTHERS = languageTags.filter((tag) => tag !== "en");

describe("settings for people", () => {
  const growing =
    "dropout=1/2 bar to 1 1/2 bars by 1/2 bar each 2 phrases,parts=kit > bass+kit each 2 phrases,tempo=76";
  // Common practice, no source; the wording of the catalogue as a musician of the language reads it aloud.
  test.each([
    ["en", "silence 1/2 bar growing to 1 1/2 bars, silent parts kit, then bass and kit, tempo 76"],
    ["de", "Stille 1/2 Takt, wachsend auf 1 1/2 Takte, stille Stimmen kit, dann bass und kit und Tempo 76"],
  ])("in %s: %s", async (tag, said) => expect(wordSettings(growing, await wordsIn(tag))).toBe(said));

  test.each(OTHERS)("in %s have nothing left of how a course writes them", async (tag) => {
    const words = await wordsIn(tag);
    const text = `${growing},key=Bb minor octave higher,rise=4 each 2 phrases,open=5+6`;
    expect(wordSettings(text, words)).not.toMatch(/\b(bars?|phrase|each|by|higher|minor|key)\b|[>+]/);
    expect(wordSettings("rise=none,open=none", words)).not.toContain("none");
  });

  test("that are none, or that a newer version wrote, stand as they are", async () => {
    const words = await wordsIn("de");
    expect(wordSettings("dropout=as long as it takes,key=?,parts=kit,open=3", words)).toBe(
      "Stille as long as it takes, Tonart ?, stille Stimmen kit und freie Takte 3",
    );
  });
});

describe("keys and instruments", () => {
  // Names of notes and keys: common practice, no source. German: B is B flat, H is B; minor keys are written small.
  test.each([
    ["en", "B♭", "B♭ minor", "F♯ mixolydian"],
    ["de", "B", "b-Moll", "Fis mixolydisch"],
    ["es", "si bemol", "si bemol menor", "fa sostenido mixolidio"],
    ["fr", "si bémol", "si bémol mineur", "fa dièse mixolydien"],
    ["it", "si bemolle", "si bemolle minore", "fa diesis misolidio"],
    ["ja", "B♭", "B♭マイナー", "F♯ミクソリディアン"],
    ["pt", "si bemol", "si bemol menor", "fá sustenido mixolídio"],
  ])("in %s: %s, %s, %s", async (tag, tonic, minor, mixolydian) => {
    const { say } = await wordsIn(tag);
    expect(tonicTold("Bb", say)).toBe(tonic);
    expect([keyTold("Bb minor", say), keyTold("F# mixolydian", say)]).toEqual([minor, mixolydian]);
  });

  test.each(OTHERS)(
    "in %s: every instrument of the table has a name, and one of a course's own keeps its own",
    async (tag) => {
      const words = await wordsIn(tag);
      for (const name of Object.keys(KNOWN_INSTRUMENTS)) {
        const key = name.toLowerCase().replaceAll(" ", "-").replaceAll("'", "") as "piccolo";
        // The catalogue names it, and does not only give its English name back.
        expect(words.say("instrument.name", { name: key, english: "\0" }), name).not.toBe("\0");
      }
      expect(wordInstrument("deep pipe", words)).toBe("deep pipe");
      expect(wordInstrument("constructor", words)).toBe("constructor");
    },
  );
});

describe("a quantity that may be a fraction", () => {
  // French and Portuguese say one and a half in the singular (Unicode CLDR plural rules): a form that writes "one" out would lose the half.
  test.each(languageTags)("in %s is told with its number, not as one", async (tag) => {
    const { say } = await wordsIn(tag);
    for (const beats of [0.5, 1.5])
      for (const key of ["take.beats", "take.unmeasured.not-back-soon"] as const)
        expect(say(key, { beats })).toMatch(beats === 0.5 ? /0[.,]5/ : /1[.,]5/);
  });
});
