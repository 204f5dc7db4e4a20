import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { readCurriculum } from "../../lib/curriculum/index.js";
import { otherScores, rungs, scoreOf, settingsText } from "../../lib/drill/index.js";
import type { Finding, Score } from "../../lib/schema/index.js";
import { assess } from "../../lib/take/index.js";
import { FAULTLESS, type Grade } from "../reference/players/grades.js";
import { misses } from "../reference/players/habits/accidents.js";
import { phaseCorrection } from "../reference/players/laws/index.js";
import { atAnotherTempo } from "../reference/players/notTheRiff.js";
import { perform, withoutPitch } from "../reference/players/perform.js";
import { sample } from "../samples.js";
import { must } from "../time/shorthand.js";

const FOLDER = new URL("../../curricula/", import.meta.url);

/** A rung of a shipped course, and what a student of the course may have played instead. */
interface Asked {
  readonly name: string;
  readonly score: Score;
  readonly others: Iterable<Score>;
}

/** Rungs of every drill of the shipped courses, evenly spaced; those with bars to improvise in left out, as they have no riff there. */
function asked(most: number): Asked[] {
  return readdirSync(FOLDER)
    .filter((file) => file.endsWith(".yaml"))
    .flatMap((file) => {
      const text = readFileSync(new URL(file, FOLDER), "utf8");
      const { drills } = must(readCurriculum(text, { file, readFile: () => undefined }));
      return drills.flatMap((drill) => {
        const { count } = rungs(drill);
        const taken = Math.min(count, most);
        return Array.from({ length: taken }, (_, k): Asked => {
          const rung = rungs(drill).at(Math.floor((k * count) / taken));
          const name = `${drill.name} ${settingsText(rung.settings)}`;
          return { name, score: scoreOf(rung), others: otherScores(rung, drills) };
        });
      });
    })
    .filter(({ score }) => score.open.length === 0);
}

const RUNGS = asked(sample({ suite: 1, proof: 4 }));
/** Written length of a beat over the player's: 76 for 84, near tempi, and the ends. */
const RATIOS = [76 / 84, 1.05, 0.85, 0.88, 0.95, 0.97, 1.03, 84 / 76, 1.15].slice(0, sample({ suite: 2, proof: 9 }));

/** The riff at another tempo, by a player who leaves out so many of a hundred notes; as heard with pitches and without. */
function heardAt(
  { name, score, others }: Asked,
  ratio: number,
  missed: number,
  temper: Grade | "faultless",
): Finding[] {
  const player = {
    law: phaseCorrection,
    temper: temper === "faultless" ? FAULTLESS : temper,
    habits: missed === 0 ? [] : [misses(missed)],
  };
  const { take } = perform(ratio === 1 ? score : atAnotherTempo(score, ratio), player, ["tempo", name, ratio, missed]);
  return [take, withoutPitch(take)].map((heard) => assess(score, heard, { others }));
}

describe("a take at another tempo throughout", () => {
  test.each([0, 3, 10])(
    "is told its tempo, whatever other riff comes near, with %i %% of the notes left out",
    (missed) => {
      const wrong = RUNGS.flatMap((rung) =>
        RATIOS.flatMap((ratio) =>
          (["faultless", "able"] as const).flatMap((temper) =>
            heardAt(rung, ratio, missed, temper)
              .filter(({ reasons, dropouts }) => {
                const told = reasons[0]?.code === "ANOTHER_TEMPO";
                return !told || dropouts.some(({ verdict }) => verdict !== "unclear");
              })
              .map(({ sentence }) => `${rung.name} x ${ratio}, ${temper}: ${sentence}`),
          ),
        ),
      );
      expect(wrong).toEqual([]);
    },
  );

  test("76 for 84 on the first drill with a bar of silence is told in beats a minute, on onsets alone", () => {
    const rung = asked(1).find(({ name }) => name.startsWith("one-bar"))!;
    expect(heardAt(rung, 76 / 84, 0, "faultless").map(({ sentence }) => sentence)).toEqual(
      Array(2).fill(
        "Your take runs at 84 beats a minute throughout, and this rung at 76: did you play along with the right band?",
      ),
    );
  });

  test.each([0, 3, 10])("is not told of a player in time who leaves out %i %%", (missed) => {
    const wrong = RUNGS.flatMap((rung) =>
      heardAt(rung, 1, missed, "able").filter(({ reasons }) =>
        reasons.some(({ code }) => code === "ANOTHER_TEMPO" || code === "ANOTHER_RUNG"),
      ),
    );
    expect(wrong.map(({ sentence }) => sentence)).toEqual([]);
  });
});
