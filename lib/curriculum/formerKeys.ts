import { pathOf } from "../schema/index.js";
import { problem } from "./codes.js";
import type { Problem } from "./problem.js";
import { say } from "./say.js";

/** A key of courses that had another name before. */
export interface FormerKey {
  /** The keys that lead to it; `*` is any name. */
  readonly inside: readonly string[];
  readonly former: string;
  readonly present: "outro" | "go-back" | "landing";
}

export const FORMER_KEYS: readonly FormerKey[] = [
  {
    inside: ["drills", "*"],
    former: "landing",
    present: "outro",
  },
  {
    inside: ["drills", "*"],
    former: "ease",
    present: "go-back",
  },
  {
    inside: ["drills", "*", "tolerance"],
    former: "re-entry",
    present: "landing",
  },
];

/** Words of musicians for keys that have another name here, by what holds them. */
const OTHER_WORDS: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  patterns: {
    measures: "bars",
    length: "bars",
    "time signature": "meter",
    "time-signature": "meter",
    time: "meter",
    signature: "meter",
    scale: "key",
    anacrusis: "pick-up",
    upbeat: "pick-up",
    feel: "swing",
    changes: "chords",
    harmony: "chords",
    tracks: "parts",
    instruments: "parts",
  },
  drills: {
    bpm: "tempo",
    speed: "tempo",
    repeats: "phrases",
    repetitions: "phrases",
    times: "phrases",
    loops: "phrases",
    silence: "dropout",
    silences: "dropout",
    mute: "dropout",
    gap: "dropout",
    riff: "pattern",
    part: "student",
    player: "players",
    levels: "ladders",
    steps: "ladders",
    limits: "tolerance",
    requires: "needs",
    prerequisites: "needs",
    solo: "open",
    improvise: "open",
  },
};

/** UNKNOWN_KEY with the key that a musician's word stands for, or with what the notes of a line between commas need; other problems as they are. */
function otherWord(found: Problem, path: readonly string[]): Problem {
  const [section = "", , ...rest] = path;
  const key = path.at(-1) ?? "";
  const words = rest.length === 1 ? OTHER_WORDS[section] : undefined;
  const isNotes = path[2] === "parts" && /^([A-Ga-g][b#♭♯]{0,2}-?\d\b|\d+\/\d+|[xXg-]{2})/.test(key);
  const remedy = isNotes
    ? say("curriculum-problem.unknown-key-notes-remedy")
    : words !== undefined && Object.hasOwn(words, key)
      ? say("curriculum-problem.write", { text: words[key]! })
      : undefined;
  if (remedy === undefined) return found;
  return { ...found, remedy: remedy.says, words: { ...found.words, remedy: remedy.message } };
}

/** The problem with a key that the schema does not know: FORMER_KEY with the present name when it had another one before; other problems as they are. */
export function formerKey(found: Problem): Problem {
  const path = found.code === "UNKNOWN_KEY" ? pathOf(found.where.pointer ?? "") : [];
  const known = FORMER_KEYS.find(
    ({ inside, former }) =>
      path.length === inside.length + 1 &&
      path.at(-1) === former &&
      inside.every((key, i) => key === "*" || key === path[i]),
  );
  if (!known) return otherWord(found, path);
  const { former, present } = known;
  const message = say("curriculum-problem.former-key", { former, present });
  return problem("FORMER_KEY", message, found.where, say("curriculum-problem.former-key-remedy", { former, present }));
}
