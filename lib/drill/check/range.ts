import { problemInside } from "../../base/index.js";
import { keyPlaceText, type Pitch, type RangeQuestion, rangeProblems } from "../../pattern/index.js";
import type { DrillDocument } from "../../schema/index.js";
import type { Problem } from "../problem.js";
import { say } from "../say.js";
import type { CheckContext } from "./context.js";
import { keysOf, notesIn, studentsNotes } from "./inKeys.js";
import { askedOf, octavesIn, rangeRemedy } from "./octaves.js";

/** The ends of MIDI, beyond which no note is. */
const LOWEST: Pitch = { letter: "C", alter: 0, octave: -1 };
const HIGHEST: Pitch = { letter: "G", alter: 0, octave: 9 };

/**
 * Checks the student's part against the written range of each player's instrument, in all keys and variants of a drill: one problem for
 * each end of a player's range, for the key that is furthest out.
 */
export function checkRange({ drill, found }: CheckContext, documents: DrillDocument["players"] = []): void {
  const written = documents.length === drill.players.length ? documents : [];
  const readers = drill.players.map((player, i) => ({ asked: askedOf(player, written[i]), octave: player.octave }));
  const notes = studentsNotes(drill);
  readers.forEach(({ asked, octave }, i) => {
    const octaves = octavesIn(drill, asked);
    if (octaves === undefined || (octaves.least <= octave && octave <= octaves.most)) return;
    const { instrument } = drill.players[i]!;
    const remedy = rangeRemedy(drill, readers, i);
    const keys = keysOf(drill);
    // When any note is out of range, the lowest note in the lowest key or the highest note in the highest key is.
    const ends = [
      { code: "WRITTEN_BELOW_RANGE", key: keys[0]!, beginners: { lowest: asked.lowest, highest: HIGHEST } },
      {
        code: "WRITTEN_ABOVE_RANGE",
        key: keys.at(-1)!,
        beginners: { lowest: LOWEST, highest: asked.highest ?? HIGHEST },
      },
    ];
    for (const { code, key, beginners } of ends) {
      const named = (problem: Problem): Problem =>
        problemInside(problem, (sentence) =>
          say("drill-problem.in-key", { key: keyPlaceText(key.place), problem: sentence }),
        );
      const question: RangeQuestion = { notes: notesIn(notes, key), instrument, octave, remedy };
      const beyond = rangeProblems(question).filter((problem) => problem.code === code);
      // Beyond the whole range is more than beyond what beginners have learnt, and is not said twice.
      const all = beyond.length > 0 || asked === instrument ? beyond : rangeProblems({ ...question, beginners });
      found.addAll(all.map(named), `/players/${i}`);
    }
  });
}
