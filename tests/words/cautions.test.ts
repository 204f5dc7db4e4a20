import { expect, test } from "vitest";
import { CAUTIONS } from "../../lib/base/index.js";
import { messages as cautionInEnglish } from "../../lib/words/generated/en-caution.js";
import { cautionsIn, english, planInEnglish, wordsOf } from "../../lib/words/index.js";
import { markedWords } from "./marked.js";

test("cautionsIn() gives the one English wording, whether it comes from the catalogue or stands in for words without it", () => {
  expect(cautionsIn(wordsOf(english, cautionInEnglish))).toEqual(CAUTIONS);
  expect(cautionsIn(wordsOf(english, planInEnglish))).toEqual(CAUTIONS);
});

test("cautionsIn() words every caution, and the catalogue has no other", () => {
  expect(cautionsIn(markedWords())).toEqual(CAUTIONS.map((caution) => `⟦${caution}⟧`));
  expect(Object.keys(cautionInEnglish)).toHaveLength(CAUTIONS.length);
});
