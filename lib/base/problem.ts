/** The place of a problem. Lines and columns are 1-based; `offset` counts characters in the string at the pointer, from 0. */
export interface Place {
  readonly file?: string;
  readonly line?: number;
  readonly column?: number;
  /** RFC 6901 JSON pointer. */
  readonly pointer?: string;
  readonly offset?: number;
}

/** A problem with something that a person wrote: an `error` stops the work, `advice` does not. */
export interface Problem {
  /** Stable name of the cause: `METER_LOWER_NOT_POWER_OF_TWO`. */
  readonly code: string;
  readonly severity: "error" | "advice";
  /** One sentence: what could not be done, what is required, and what was found. */
  readonly message: string;
  readonly where: Place;
  /** What to write instead, when known. */
  readonly remedy?: string;
}

/** Entry of a catalogue of problem codes: the severity, and one line for the documentation. */
export interface ProblemKind {
  readonly severity: Problem["severity"];
  readonly means: string;
}
export type ProblemCatalogue = Readonly<Record<string, ProblemKind>>;

/** A function that makes problems of one catalogue, so that every code in use is documented. */
export function problemsOf<Codes extends ProblemCatalogue>(
  catalogue: Codes,
): (code: keyof Codes & string, message: string, where?: Place, remedy?: string) => Problem {
  return (code, message, where = {}, remedy) => ({
    code,
    severity: catalogue[code]!.severity,
    message,
    where,
    ...(remedy === undefined ? {} : { remedy }),
  });
}

/** The problem with `pointer` put before its own pointer, and with `file` when given. */
export function placedUnder(problem: Problem, pointer: string, file?: string): Problem {
  const where = { ...problem.where, pointer: pointer + (problem.where.pointer ?? "") };
  return { ...problem, where: file === undefined ? where : { file, ...where } };
}
