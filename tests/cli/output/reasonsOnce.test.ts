import { expect, test } from "vitest";
import { reasonsOnce } from "../../../lib/cli/output/reasonsOnce.js";
import { assess } from "../../../lib/take/index.js";
import { messages } from "../../../lib/words/generated/en.js";
import { english, wordsOf } from "../../../lib/words/index.js";
import { plainScore, scatteredBy, takeOf } from "../../take/scores.js";

const words = wordsOf(english, messages);

test("too few notes in several silences are one row, with the silences; of one silence alone it stays as it is", () => {
  const score = plainScore({ phrases: 4, perBeat: 2 });
  const silent = (at: number): number => score.dropouts.findIndex(({ from, to }) => at > from + 1e-6 && at < to - 1e-6);
  const take = scatteredBy(takeOf(score), 8, "few");
  const few = (silences: readonly number[]) => {
    const onsets = take.onsets.filter((_, k) => !silences.includes(silent(score.expected[k]!.at)) || k % 7 === 0);
    return assess(score, { ...take, onsets }).reasons.filter(({ code }) => code === "TOO_FEW_NOTES");
  };
  const all = few([0, 1, 2, 3]);
  expect(all.length).toBe(4);
  const played = all.reduce((sum, { message }) => sum + Number(message!.parameters.played), 0);
  const notes = all.reduce((sum, { message }) => sum + Number(message!.parameters.notes), 0);
  expect(reasonsOnce(all, words)).toEqual([
    {
      code: "TOO_FEW_NOTES",
      sentence: `In silences 1, 2, 3, 4 you played ${played} of ${notes} notes in all: too few to say whether you kept the time. Play on through the silence.`,
    },
  ]);
  const one = few([2]);
  expect(reasonsOnce(one, words)).toEqual([{ code: "TOO_FEW_NOTES", sentence: one[0]!.says }]);
});
