import type { Problem } from "../base/index.js";
import type { Advice } from "../schema/index.js";

/** A problem as a take carries it: in English, as a take has no place for messages, and as advice, since the take is there to be judged. */
export function adviceOf({ code, message, where, remedy }: Problem): Advice {
  return { code, severity: "advice", message, where, ...(remedy === undefined ? {} : { remedy }) };
}
