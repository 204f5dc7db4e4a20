import { problemsIn, type Result } from "../../lib/base/index.js";
import { type Curriculum, readCurriculum } from "../../lib/curriculum/index.js";

/** A small sound course; `drills` and `head` are YAML to put in place of its own. */
export function courseText({
  drills = HOLD,
  head = "",
}: {
  readonly drills?: string;
  readonly head?: string;
} = {}): string {
  return `curriculum: quay-test
edition: 1.0.0
title: Quay test
${head}patterns:
  riff:
    meter: 4/4
    bars: 4
    key: D dorian
    parts:
      kit: { voices: { hat: xxxx | ... } }
      bass: { notes: 1/1 D2 | G2 | D2 | A2 }
      lead:
        variants:
          plain: { notes: 1/4 D4 E4 F4 G4 | ... }
          busy: { notes: 1/8 D4 D4 1/4 E4 F4 G4 | ... }
drills:
${drills}`;
}

export const HOLD = `  hold:
    pattern: riff
    student: lead
    variant: plain
    tempo: 90
    tolerance: { steadiness: 40 ms }
`;

export const read = (text: string): Result<Curriculum> =>
  readCurriculum(text, { file: "course.yaml", readFile: () => undefined });

/** The course; throws with its problems when it has errors. */
export function courseFrom(text: string): Curriculum {
  const result = read(text);
  if (!result.ok)
    throw new Error(
      result.problems.map((each) => `${each.where.line}:${each.where.column} ${each.code} ${each.message}`).join("\n"),
    );
  return result.value;
}

/** "CODE line:column" of every problem. */
export const placesIn = (text: string): readonly string[] =>
  problemsIn(read(text)).map(({ code, where }) => `${code} ${where.line}:${where.column}`);
