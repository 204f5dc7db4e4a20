import { problemInside } from "../../base/index.js";
import {
  type Interval,
  intervalBetween,
  keyPlaceText,
  knownInstrumentNamed,
  midiNumber,
  type Note,
  octavesBeyond,
  type Pitch,
  rangeProblems,
  readKeyPlace,
  transposePitch,
} from "../../pattern/index.js";
import type { DrillDocument } from "../../schema/index.js";
import type { Drill } from "../model.js";
import type { Problem } from "../problem.js";
import { say } from "../say.js";
import { notesOf } from "../variants.js";
import { type CheckContext, valuesInForce } from "./context.js";

/**
 * Checks the student's part against the written range of each player's instrument, in all keys and variants of a drill: one problem for
 * each end of a player's range, for the key that is furthest out.
 */
export function checkRange({ drill, found }: CheckContext, players: DrillDocument["players"] = []): void {
  const isBeginner = (players.length === drill.players.length ? players : []).map(
    (player) => typeof player !== "string" && player.range === "beginners",
  );
  const part = drill.pattern.parts.find(({ name }) => name === drill.student);
  const notes = valuesInForce(drill, "variant").flatMap((variant) => (part && notesOf(part, variant)) ?? []);
  const moves = keyMoves(drill);
  const lowest = moves[0]!;
  const highest = moves.at(-1)!;
  // When any note is out of range, the lowest note in the lowest key or the highest note in the highest key is: only then are all notes checked.
  const ends = [
    { code: "WRITTEN_BELOW_RANGE", move: lowest, note: furthest(notes, -1) },
    { code: "WRITTEN_ABOVE_RANGE", move: highest, note: furthest(notes, 1) },
  ];
  for (const { code, move, note } of ends) {
    if (note === undefined) return;
    drill.players.forEach((player, i) => {
      const ask = (asked: readonly Note[]): readonly Problem[] =>
        rangeProblems({ notes: moved(asked, move), ...player }).filter((problem) => problem.code === code);
      const beginners = isBeginner[i] ? knownInstrumentNamed(player.instrument.name)?.beginners : undefined;
      if (ask([note]).length === 0 && beginners !== undefined) {
        const end =
          code === "WRITTEN_BELOW_RANGE" ? { ...beginners, highest: HIGHEST } : { ...beginners, lowest: LOWEST };
        const beyond = rangeProblems({ notes: moved(notes, move), ...player, beginners: end });
        found.addAll(beyond, `/players/${i}`);
      }
      if (ask([note]).length === 0) return;
      const named = (problem: Problem): Problem =>
        problemInside(problem, (sentence) => say("drill-problem.in-key", { key: move.name, problem: sentence }));
      found.addAll(ask(notes).map(named), `/players/${i}`);
    });
  }
}

/** The ends of MIDI, beyond which no note is. */
const LOWEST: Pitch = { letter: "C", alter: 0, octave: -1 };
const HIGHEST: Pitch = { letter: "G", alter: 0, octave: 9 };

interface KeyMove {
  readonly name: string;
  readonly interval: Interval;
}

/** The keys of a drill with their intervals from the pattern's key, the lowest first. */
function keyMoves(drill: Drill): readonly KeyMove[] {
  const home = drill.pattern.key;
  const moves = valuesInForce(drill, "key").map((text) => {
    const place = (text === undefined ? undefined : readKeyPlace(text)) ?? { key: home, octaves: 0 as const };
    const interval = octavesBeyond(intervalBetween(home.tonic, place.key.tonic), place.octaves);
    return { name: keyPlaceText(place), interval };
  });
  return moves.sort((a, b) => a.interval.chromatic - b.interval.chromatic);
}

/** The lowest (-1) or highest (1) pitched note; `undefined` when there is none. */
function furthest(notes: readonly Note[], way: -1 | 1): Note | undefined {
  let found: { note: Note; height: number } | undefined;
  for (const note of notes) {
    const height = note.pitch === undefined ? undefined : way * midiNumber(note.pitch);
    if (height !== undefined && (found === undefined || height > found.height)) found = { note, height };
  }
  return found?.note;
}

function moved(notes: readonly Note[], { interval }: KeyMove): readonly Note[] {
  return notes.map((note) =>
    note.pitch === undefined ? note : { ...note, pitch: transposePitch(note.pitch, interval) },
  );
}
