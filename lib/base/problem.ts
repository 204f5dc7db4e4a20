/** Where a problem is. Lines and columns are 1-based; `offset` counts characters inside the string the pointer leads to. */
export interface Place {
  readonly file?: string;
  readonly line?: number;
  readonly column?: number;
  /** RFC 6901 JSON pointer. */
  readonly pointer?: string;
  readonly offset?: number;
}

/** What is wrong with something a person wrote: an `error` stops the work, `advice` does not. */
export interface Problem {
  /** Stable, names the cause: `METER_LOWER_NOT_POWER_OF_TWO`. */
  readonly code: string;
  readonly severity: "error" | "advice";
  /** What could not be done, what is required and what was found, in one sentence. */
  readonly message: string;
  readonly where: Place;
  /** What to write instead, when known. */
  readonly remedy?: string;
}

/** What a catalogue of problem codes says of each: its severity and one line for the reader of the documentation. */
export interface ProblemKind {
  readonly severity: Problem["severity"];
  readonly means: string;
}
export type ProblemCatalogue = Readonly<Record<string, ProblemKind>>;

/** A maker of problems bound to one catalogue, so that no code is used which is not documented. */
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

/** The problem again, its pointer placed below `pointer` (and in `file`, when given). */
export function placedUnder(problem: Problem, pointer: string, file?: string): Problem {
  const where = { ...problem.where, pointer: pointer + (problem.where.pointer ?? "") };
  return { ...problem, where: file === undefined ? where : { file, ...where } };
}
