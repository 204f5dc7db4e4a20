import type { Problem } from "../base/index.js";
import { pathOf } from "../schema/index.js";
import { problem } from "./codes.js";

/** A key of courses that had another name before. */
export interface FormerKey {
  /** The keys that lead to it; `*` is any name. */
  readonly inside: readonly string[];
  readonly former: string;
  readonly present: string;
  /** What it is for. */
  readonly says: string;
}

export const FORMER_KEYS: readonly FormerKey[] = [
  {
    inside: ["drills", "*"],
    former: "landing",
    present: "outro",
    says: "the bars after the last phrase",
  },
  {
    inside: ["drills", "*"],
    former: "ease",
    present: "go-back",
    says: "when a student goes back to an easier rung",
  },
  {
    inside: ["drills", "*", "tolerance"],
    former: "re-entry",
    present: "landing",
    says: "how far off the student's note may be where the accompaniment returns",
  },
];

/** The problem with a key that the schema does not know: FORMER_KEY with the present name when it had another one before; other problems as they are. */
export function formerKey(found: Problem): Problem {
  const path = found.code === "UNKNOWN_KEY" ? pathOf(found.where.pointer ?? "") : [];
  const known = FORMER_KEYS.find(
    ({ inside, former }) =>
      path.length === inside.length + 1 &&
      path.at(-1) === former &&
      inside.every((key, i) => key === "*" || key === path[i]),
  );
  if (!known) return found;
  const message = `the key ${known.former} is called ${known.present} now (${known.says})`;
  return problem("FORMER_KEY", message, found.where, `write ${known.present}: in place of ${known.former}:`);
}
