import type { Problem } from "../base/index.js";
import { pathOf } from "../schema/index.js";
import { problem } from "./codes.js";
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
  const { former, present } = known;
  const message = say("curriculum-problem.former-key", { former, present });
  return problem("FORMER_KEY", message, found.where, say("curriculum-problem.former-key-remedy", { former, present }));
}
