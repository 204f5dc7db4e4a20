/** The place of a problem. Lines and columns are 1-based; `offset` counts characters in the string at the pointer, from 0. */
export interface Place {
  readonly file?: string;
  readonly line?: number;
  readonly column?: number;
  /** RFC 6901 JSON pointer. */
  readonly pointer?: string;
  readonly offset?: number;
}

/**
 * The codes of every catalogue at the doors that a program imports, as keys: each catalogue adds its own, so that `Problem.code` is the union of them and a
 * misspelt code does not compile.
 */
// biome-ignore lint/suspicious/noEmptyInterface: catalogues add to it.
export interface ProblemCodes {}

/** A stable name of a cause. */
export type ProblemCode = keyof ProblemCodes;

/** A problem with something that a person wrote: an `error` stops the work, `advice` does not. `Problem<string>` is one that was read from a document. */
export interface Problem<Code extends string = ProblemCode> {
  /** Stable name of the cause: `METER_LOWER_NOT_POWER_OF_TWO`. */
  readonly code: Code;
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
): <Code extends keyof Codes & string>(code: Code, message: string, where?: Place, remedy?: string) => Problem<Code> {
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
