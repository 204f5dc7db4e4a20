import type { Message, Worded } from "./message.js";

/** The place of a problem. Lines and columns are 1-based; `offset` counts characters in the string at the pointer, from 0. */
export interface Place {
  readonly file?: string;
  readonly line?: number;
  readonly column?: number;
  /** RFC 6901 JSON pointer. */
  readonly pointer?: string;
  readonly offset?: number;
}

/** A problem with something that a person wrote: an `error` stops the work, `advice` does not. `Code`: the codes there can be, where they are known. */
export interface Problem<Code extends string = string> {
  /** Stable name of the cause: `METER_LOWER_NOT_POWER_OF_TWO`. */
  readonly code: Code;
  readonly severity: "error" | "advice";
  /** One sentence: what could not be done, what is required, and what was found. */
  readonly message: string;
  readonly where: Place;
  /** What to write instead, when known. */
  readonly remedy?: string;
  /** Message and remedy before they are worded, for another language; left out in a problem that an application made itself. */
  readonly words?: ProblemWords;
}

export interface ProblemWords {
  readonly message?: Message;
  readonly remedy?: Message;
}

/** The severities of problems by their codes. What a code means is a message of topic `code`: `code.meter-not-read`. */
export type ProblemCatalogue = Readonly<Record<string, Problem["severity"]>>;

/** A function that makes problems of one catalogue, so that every code in use is known. A sentence comes with its message. */
export function problemsOf<Codes extends ProblemCatalogue>(
  catalogue: Codes,
): <Code extends keyof Codes & string>(code: Code, message: Worded, where?: Place, remedy?: Worded) => Problem<Code> {
  return (code, message, where = {}, remedy) => ({
    code,
    // Of a catalogue the build leaves only advice.
    severity: catalogue[code] ?? "error",
    message: message.says,
    where,
    ...(remedy === undefined ? {} : { remedy: remedy.says }),
    words: { message: message.message, ...(remedy === undefined ? {} : { remedy: remedy.message }) },
  });
}

/** The problem with `pointer` put before its own pointer, and with `file` when given. */
export function placedUnder<Code extends string>(
  problem: Problem<Code>,
  pointer: string,
  file?: string,
): Problem<Code> {
  const where = { ...problem.where, pointer: pointer + (problem.where.pointer ?? "") };
  return { ...problem, where: file === undefined ? where : { file, ...where } };
}
