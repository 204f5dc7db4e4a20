import { failure, type Problem, problemsOf, type Result, success } from "../../base/index.js";
import { sha256 } from "../../node/index.js";
import {
  joinParts,
  partOf,
  partText,
  type RehearsedPart,
  type ReportFrame,
  type ReportTerms,
  rehearsalReport,
} from "../../rehearsal/index.js";
import type { RehearsalReport } from "../../schema/index.js";
import { fileCodes } from "../codes.js";
import { readText } from "../input/inputFile.js";
import { sayProblem } from "../say.js";

const problem = problemsOf(fileCodes);

/** A part of a rehearsal that was made by itself, with all that a report of the whole needs. */
interface PartDocument {
  readonly frame: ReportFrame;
  readonly terms: ReportTerms;
  /** Students of the whole rehearsal. */
  readonly students: number;
  readonly shard: readonly [number, number];
  readonly part: RehearsedPart;
}

const VERSION = 1;
/** Most bytes of a file of a part: our choice; one of a course of 500 rungs has some megabytes. */
const LIMIT = 200_000_000;

/** A part as the text of a file: the version, a checksum, and the rest as JSON, each on a line. */
export function partDocument({ part, ...rest }: PartDocument): string {
  const text = `${JSON.stringify(rest)}\n${partText(part)}`;
  return `leeway rehearsal part ${VERSION}\n${sha256(text)}\n${text}\n`;
}

/** The report of all parts of one rehearsal, the same as of a rehearsal in one piece. Problems: REHEARSAL_PARTS_UNFIT, those of reading. */
export function mergedParts(files: readonly string[]): Result<RehearsalReport> {
  const problems: Problem[] = [];
  const read = files.flatMap((file) => {
    const text = readText(file, LIMIT);
    if (!text.ok) {
      problems.push(...text.problems);
      return [];
    }
    const document = documentOf(text.value);
    if (document === undefined) problems.push(unfit("unreadable", "", file));
    return document === undefined ? [] : [{ file, ...document }];
  });
  const [first] = read;
  if (problems.length > 0 || first === undefined) return { ok: false, problems };
  const sameAs = (of: PartDocument): string => JSON.stringify([of.frame, of.terms, of.students, of.shard[1]]);
  const other = read.find((each) => sameAs(each) !== sameAs(first));
  if (other !== undefined) return failure(unfit("other", "", other.file));
  const numbers = read.map(({ shard }) => shard[0]);
  const twice = read.find(({ shard }, i) => numbers.indexOf(shard[0]) < i);
  if (twice !== undefined) return failure(unfit("twice", `${twice.shard[0]}/${twice.shard[1]}`, twice.file));
  const missing = Array.from({ length: first.shard[1] }, (_, i) => i + 1).filter((each) => !numbers.includes(each));
  if (missing.length > 0)
    return failure(
      unfit(
        "missing",
        missing
          .map((each) => `${each}/${first.shard[1]}`)
          .slice(0, 10)
          .join(" "),
        first.file,
      ),
    );
  return success(rehearsalReport(joinParts(read.map(({ part }) => part)), first.frame, first.terms));
}

function documentOf(text: string): PartDocument | undefined {
  const [mark, sum, ...lines] = text.split("\n");
  const body = lines.slice(0, 2).join("\n");
  if (mark !== `leeway rehearsal part ${VERSION}` || sha256(body) !== sum) return undefined;
  return { ...(JSON.parse(lines[0]!) as Omit<PartDocument, "part">), part: partOf(lines[1]!) };
}

function unfit(why: "unreadable" | "other" | "twice" | "missing", parts: string, file: string): Problem {
  return problem(
    "REHEARSAL_PARTS_UNFIT",
    sayProblem("cli-problem.rehearsal-parts-unfit", { why, parts }),
    { file },
    sayProblem("cli-problem.rehearsal-parts-unfit-remedy", { why }),
  );
}
