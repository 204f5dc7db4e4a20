import type { Curriculum } from "../curriculum/index.js";
import type { Drill, Gate } from "../drill/index.js";
import type { RehearsalComparison, RehearsalResults, RehearsalWay } from "../schema/index.js";
import { POLICIES, type PolicyName } from "./climb/policy.js";
import type { RehearsalOptions } from "./rehearse.js";
import { differencesOf, type Paired } from "./summary/paired.js";

/** Another way to go: a course and how it is rehearsed, to be put beside the course as it is. */
export interface OtherWay {
  readonly way: RehearsalWay;
  readonly course: Curriculum;
  readonly options: RehearsalOptions;
}

/**
 * Every policy but the one that is rehearsed: those that mean well, and beside them what every claim has to stand beside, one that does nothing, one by chance, one that knows the
 * true chances, and one made to have the largest share of clean takes.
 */
export function otherPolicies(course: Curriculum, options: RehearsalOptions): readonly OtherWay[] {
  const present = options.policy ?? "current";
  return (Object.keys(POLICIES) as PolicyName[])
    .filter((policy) => policy !== present)
    .map((policy) => ({ way: { what: "policy", after: policy }, course, options: { ...options, policy } }));
}

/** Gates of every kind, each in all drills: our choice, what courses usually ask for. */
const GATES: readonly Gate[] = [
  { kind: "clean of last", clean: 3, of: 4 },
  { kind: "clean of last", clean: 4, of: 5 },
  { kind: "clean of last", clean: 3, of: 5 },
  { kind: "in a row", count: 2 },
  { kind: "in a row", count: 3 },
  { kind: "sequential", able: 0.85, unready: 0.5, wronglyLetOn: 0.1, wronglyHeld: 0.1 },
];

/** The course with another gate in all drills, for each kind of gate that it does not have in all of them already. */
export function otherGates(course: Curriculum, options: RehearsalOptions): readonly OtherWay[] {
  return GATES.filter((gate) => course.drills.some((drill) => gateWritten(drill.gate) !== gateWritten(gate))).map(
    (gate) => ({
      way: { what: "gate", after: gateWritten(gate) },
      course: { ...course, drills: course.drills.map((drill): Drill => ({ ...drill, gate })) },
      options,
    }),
  );
}

/** What a rehearsal found of a way beside the course as it is; `stuck` where the way is meant to change one rung. */
export function comparisonOf(
  way: RehearsalWay,
  paired: Paired,
  stuck?: RehearsalComparison["stuck"],
): RehearsalComparison {
  const rounded = (value: number): number => (Number.isFinite(value) ? Number(value.toFixed(4)) + 0 : 0);
  return {
    way,
    differences: differencesOf(paired).map(({ figure, ...numbers }) => ({
      figure,
      first: rounded(numbers.first),
      second: rounded(numbers.second),
      difference: rounded(numbers.difference),
      low: rounded(numbers.low),
      high: rounded(numbers.high),
      gain: rounded(numbers.gain),
    })),
    ...(stuck === undefined ? {} : { stuck }),
  };
}

/** Students who need very long for the rungs that a way is meant to change, before and after. */
export function stuckIn(results: RehearsalResults, drill: string, isMeant: (rung: string) => boolean): number {
  const rungs = results.drills.find((each) => each.drill === drill)?.rungs ?? [];
  return rungs.reduce((sum, { rung, long }) => sum + (isMeant(rung) ? long : 0), 0);
}

/** A gate as a course writes it. */
function gateWritten(gate: Gate): string {
  const percent = (share: number): string => `"${Number((100 * share).toFixed(4))} %"`;
  switch (gate.kind) {
    case "clean of last":
      return `{ clean: ${gate.clean}, of: ${gate.of} }`;
    case "in a row":
      return `{ in-a-row: ${gate.count} }`;
    case "sequential":
      return `{ sequential: { able: ${percent(gate.able)}, unready: ${percent(gate.unready)} } }`;
  }
}
