import { isTimestamp } from "../index.js";
import { MISUSE, type Outcome, type Setting } from "./outcome.js";
import { plain } from "./plain.js";

export interface TimeOptions {
  /** RFC 3339. */
  readonly at?: string;
}

/** The time to work at: the one given, or now; misuse when it is none. */
export function timeFor({ machine }: Setting, { at = machine.now() }: TimeOptions): string | Outcome {
  if (isTimestamp(at)) return at;
  machine.tell(`leeway: --at must be a time such as 2026-03-02T17:30:00Z, got ${plain(at)}\n`);
  return MISUSE;
}
