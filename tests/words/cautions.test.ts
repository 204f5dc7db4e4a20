import { expect, test } from "vitest";
import { CAUTIONS, CLICK_CAUTION } from "../../lib/base/index.js";
import { calibrationSound } from "../../lib/listen/index.js";
import { labelOf } from "../../lib/render/sound/soundJobs.js";
import type { Score } from "../../lib/schema/index.js";
import { messages as cautionInEnglish } from "../../lib/words/generated/en-caution.js";
import { cautionsIn, english, planInEnglish, wordsOf } from "../../lib/words/index.js";
import { markedWords, unmarked } from "./marked.js";

test("cautionsIn() gives the one English wording, whether it comes from the catalogue or stands in for words without it", () => {
  expect(cautionsIn(wordsOf(english, cautionInEnglish))).toEqual(CAUTIONS);
  expect(cautionsIn(wordsOf(english, planInEnglish))).toEqual(CAUTIONS);
});

test("cautionsIn() words every caution, and the catalogue has no other", () => {
  const all = [...CAUTIONS, CLICK_CAUTION];
  expect(cautionsIn(wordsOf(english, cautionInEnglish), all)).toEqual(all);
  expect(cautionsIn(markedWords(), all)).toEqual(all.map((caution) => `⟦${caution}⟧`));
  expect(cautionsIn(markedWords())).toEqual(CAUTIONS.map((caution) => `⟦${caution}⟧`));
  expect(Object.keys(cautionInEnglish)).toHaveLength(all.length);
});

test("what is written into sound files comes from the catalogue: of clicks, and of the score of a rung", () => {
  const words = markedWords();
  const clicks = Buffer.from(calibrationSound({ words })).toString("utf8");
  for (const said of ["Clicks that measure a device", CLICK_CAUTION, ...CAUTIONS])
    expect(clicks).toContain(`⟦${said}⟧`);
  const score = { drill: "steady", rung: "tempo=84", mix: "play" } as Score;
  const plain = labelOf(score);
  expect(plain).toMatchObject({ title: "steady, tempo 84, mix play", comment: CAUTIONS.join(" ") });
  for (const of of [score, { ...score, curriculum: "quay", edition: "1.0.0" }]) {
    const { title, comment } = labelOf(of, words);
    expect(unmarked(`${title}${comment}`).outside.trim()).toBe("");
  }
  expect(labelOf({ ...score, curriculum: "quay", edition: "1.0.0" }).title).toBe(
    "quay 1.0.0, steady, tempo 84, mix play",
  );
});
