import type { Worded } from "../../base/index.js";
import {
  type Compass,
  compassOf,
  type Instrument,
  keyPlaceText,
  knownInstrumentNamed,
  nearestOctave,
  type Octaves,
  octavesWithin,
} from "../../pattern/index.js";
import type { DrillDocument } from "../../schema/index.js";
import type { Drill } from "../model.js";
import { say } from "../say.js";
import { type InKey, keysOf, studentsNotes } from "./inKeys.js";

/** The written range that is asked of a player, and how the instrument sounds. */
export type Asked = Pick<Instrument, "name" | "transposition" | "lowest" | "highest">;

/** What is asked of a player: the range of the instrument, or what beginners on it have learnt; the instrument itself in the former case. */
export function askedOf(
  { instrument }: Drill["players"][number],
  written: NonNullable<DrillDocument["players"]>[number] | undefined,
): Asked {
  const forBeginners = typeof written === "object" && written.range === "beginners";
  const learnt = forBeginners ? knownInstrumentNamed(instrument.name)?.beginners : undefined;
  return learnt ? { ...instrument, ...learnt } : instrument;
}

/** The octaves by which the student's part may be moved for a player to reach it in every key of a drill; `undefined` without pitches. */
export function octavesIn(drill: Drill, asked: Omit<Asked, "name">): Octaves | undefined {
  const compass = compassOf(studentsNotes(drill));
  return compass && octavesWithin(compassIn(compass, keysOf(drill)), asked);
}

/** The compass of a part in all of these keys, which are given from the lowest on. */
function compassIn({ lowest, highest }: Compass, keys: readonly InKey[]): Compass {
  return { lowest: lowest + keys[0]!.interval.chromatic, highest: highest + keys.at(-1)!.interval.chromatic };
}

/** What to do where an octave of the part is the remedy. */
export function octaveRemedy(octave: number, present: number): Worded {
  return say("drill-problem.range-remedy-octave", { way: octave < present ? "down" : "up", octave });
}

interface Reader {
  readonly asked: Asked;
  readonly octave: number;
}

/**
 * What to write where a part leaves the range of a player of a drill: the octave of the part that holds in every key; where there is none,
 * another octave for the keys that lie out of reach, in which nobody loses what they reach now; else which keys to leave out.
 */
export function rangeRemedy(drill: Drill, readers: readonly Reader[], at: number): Worded {
  const reader = readers[at]!;
  const octaves = octavesIn(drill, reader.asked);
  const octave = octaves && nearestOctave(octaves, reader.octave);
  if (octave !== undefined) return octaveRemedy(octave, reader.octave);
  const instrument = reader.asked.name;
  const keys = keysOf(drill);
  const compass = compassOf(studentsNotes(drill))!;
  const reaches = ({ asked, octave }: Reader, key: InKey): boolean =>
    nearestOctave(octavesWithin(compassIn(compass, [key]), asked), octave) === octave;
  const written = new Set(keys.map(({ place }) => keyPlaceText(place)));
  const beyond = keys.filter((key) => !reaches(reader, key));
  const leftOut: string[] = [];
  const moved: { from: string; to: string }[] = [];
  for (const key of beyond) {
    const from = keyPlaceText(key.place);
    const to = otherOctaves(key).find(
      (other) => reaches(reader, other) && readers.every((one) => reaches(one, other) || !reaches(one, key)),
    );
    const text = to && keyPlaceText(to.place);
    if (text === undefined || written.has(text)) leftOut.push(from);
    else {
      moved.push({ from, to: text });
      written.add(text);
    }
  }
  if (leftOut.length === keys.length) {
    const whole = octavesIn(drill, drill.players[at]!.instrument);
    const range = whole === undefined || nearestOctave(whole, 0) === undefined ? "full" : "beginners";
    return say("drill-problem.range-remedy-none", { instrument, range });
  }
  const moves = moved.map((move) => say("drill-problem.key-for-key", move).message);
  if (leftOut.length === 0) return say("drill-problem.range-remedy-keys", { moves });
  if (moves.length === 0) return say("drill-problem.range-remedy-leave-out", { keys: leftOut, instrument });
  return say("drill-problem.range-remedy-keys-leave-out", { moves, keys: leftOut });
}

/** The same key in its other octaves, the nearest first. */
function otherOctaves({ place, interval }: InKey): readonly InKey[] {
  return ([-1, 0, 1] as const)
    .filter((octaves) => octaves !== place.octaves)
    .sort((a, b) => Math.abs(a - place.octaves) - Math.abs(b - place.octaves))
    .map((octaves) => ({
      place: { ...place, octaves },
      interval: { ...interval, chromatic: interval.chromatic + 12 * (octaves - place.octaves) },
    }));
}
