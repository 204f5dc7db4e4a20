import { readdirSync, readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { readCurriculum } from "../../lib/curriculum/index.js";
import { rungs, scoreOf } from "../../lib/drill/index.js";
import { assess } from "../../lib/take/index.js";
import { must } from "../time/shorthand.js";

const FOLDER = new URL("../../curricula/", import.meta.url);
const DRILLS = readdirSync(FOLDER)
  .filter((file) => file.endsWith(".yaml"))
  .flatMap((file) => {
    const text = readFileSync(new URL(file, FOLDER), "utf8");
    return must(readCurriculum(text, { file, readFile: () => undefined })).drills.map(
      (drill) => [drill.name, drill] as const,
    );
  });

test.each(DRILLS)(
  "%s: who plays the first notes only, or the last, is not told to have played another tune",
  (_, drill) => {
    const score = scoreOf(rungs(drill).at(0));
    // 10 ms late on every note.
    const onsets = score.expected.map(({ at }) => at + 0.01);
    for (const share of [0, 0.03, 0.1, 0.25, 0.45]) {
      const count = Math.max(1, Math.floor(share * onsets.length));
      for (const some of [onsets.slice(0, count), onsets.slice(-count)]) {
        const { verdict, reasons } = assess(score, { id: "tern-1", zero: "bar-1", onsets: some });
        const codes = reasons.map(({ code }) => code);
        expect(verdict).toBe("unclear");
        expect(codes, `${count} of ${onsets.length}`).not.toContain("OTHER_NOTES");
        expect(codes, `${count} of ${onsets.length}`).not.toContain("ANOTHER_RUNG");
        expect(codes[0], `${count} of ${onsets.length}`).toBe("TOO_LITTLE_PLAYED");
      }
    }
  },
);
