/** An application, as the package check compiles it: each line under `@ts-expect-error` must be refused, and everything else must pass. */
import {
  type Finding,
  milliseconds,
  openCourse,
  parseTempo,
  type Problem,
  type Curriculum,
  readCurriculum,
  type Seconds,
  type Score,
  seconds,
  type Take,
} from "leeway";
import { readMidiFile } from "leeway/formats";
import { type PracticeCode, place, requireNames, submit } from "leeway/practice";
import { checkTake } from "leeway/schema";
import type { Store } from "leeway/store";
import { loadWords } from "leeway/words";

type CodeOf<F> = F extends (...given: never[]) => infer Given ? CodeIn<Awaited<Given>> : never;
type CodeIn<Given> = Given extends
  | { problems: readonly { code: infer Code; severity: string }[] }
  | readonly { code: infer Code; severity: string }[]
  ? Code
  : never;

/** A handler of every problem takes those of each door. */
export function told(problem: Problem): string {
  return `${problem.code}: ${problem.message}`;
}

export function tempoRemedy(text: string): string {
  const tempo = parseTempo(text);
  if (tempo.ok) return "";
  const { code } = tempo.problems[0]!;
  switch (code) {
    case "TEMPO_NOT_READ":
      return told(tempo.problems[0]!);
    // @ts-expect-error: a misspelt code
    case "TEMPO_NOT_RAED":
      return "";
    // @ts-expect-error: a code of another door
    case "STORE_FULL":
      return "";
    default:
      return code;
  }
}

export const ofRoot: readonly [CodeOf<typeof readCurriculum>, CodeOf<typeof openCourse>] = [
  "TEMPO_OUT_OF_RANGE",
  "COMPILED_COURSE_ALTERED",
];
export const ofFormats: CodeOf<typeof readMidiFile> = "MIDI_HEADER_MISSING";
export const ofPractice: CodeOf<typeof submit> & PracticeCode = "TAKE_RUNG_NOT_SAID";
export const ofSchema: CodeOf<typeof checkTake> = "MISSING_KEY";
export const ofWords: CodeOf<typeof loadWords> = "LANGUAGE_UNKNOWN";

/** Functions whose problems could have any text as their code: none, at any door. `problemsIn` and `runConcurrently` hand on the codes that they are given. */
type BareIn<Door> = {
  [Name in keyof Door]: Door[Name] extends (...given: never[]) => unknown
    ? string extends CodeOf<Door[Name]>
      ? Name
      : never
    : never;
}[keyof Door];
type Bare =
  | BareIn<Omit<typeof import("leeway"), "problemsIn">>
  | BareIn<typeof import("leeway/formats")>
  | BareIn<typeof import("leeway/listen")>
  | BareIn<Omit<typeof import("leeway/node"), "runConcurrently">>
  | BareIn<typeof import("leeway/plan")>
  | BareIn<typeof import("leeway/practice")>
  | BareIn<typeof import("leeway/records")>
  | BareIn<typeof import("leeway/render")>
  | BareIn<typeof import("leeway/schema")>
  | BareIn<typeof import("leeway/sheet")>
  | BareIn<typeof import("leeway/sound")>
  | BareIn<typeof import("leeway/store/postgres")>
  | BareIn<typeof import("leeway/store/sqlite")>
  | BareIn<typeof import("leeway/words")>;
export const bare: [Bare] extends [never] ? "none" : Bare = "none";

/** Documents take plain numbers, and numbers of their unit. */
export const take: Take = { onsets: [0.64, seconds(1.28), { at: seconds(1.9) }], latencyMs: milliseconds(12) };

export function between(finding: Finding, score: Score): readonly unknown[] {
  const { from, driftMs } = finding.dropouts[0]!;
  if (typeof driftMs !== "number") return [];
  // @ts-expect-error: milliseconds for seconds
  const onset: Take = { onsets: [driftMs] };
  // @ts-expect-error: seconds for milliseconds
  const late: Take = { onsets: [], latencyMs: score.beat };
  // @ts-expect-error: beats per minute for seconds
  const beat: Seconds = seconds(score.tempo);
  const { clockMs } = finding.steadiness;
  // @ts-expect-error: milliseconds for each root of a beat, for milliseconds
  const clock: Take = { onsets: [], latencyMs: typeof clockMs === "number" ? clockMs : 0 };
  return [onset, late, beat, clock, seconds(from - score.beat), milliseconds(driftMs)];
}

/** A take is handed in only when it says what it was played to. */
export async function handIn(store: Store, course: Curriculum, taken: Take): Promise<readonly unknown[]> {
  const use = { course, at: "2026-03-02T17:30:00Z" };
  const named = requireNames({ ...taken, id: "evening-3" });
  if (!named.ok) return named.problems;
  return [
    // @ts-expect-error: a take without id, drill or rung
    await submit(store, "tern", taken, use),
    // @ts-expect-error: the same, for a placement
    await place(store, "tern", { ...use, take: taken }),
    // @ts-expect-error: no rung
    await submit(store, "tern", { id: "evening-3", drill: "steady", onsets: [0.64] }, use),
    await submit(store, "tern", { id: "evening-3", drill: "steady", rung: "tempo=84", onsets: [0.64] }, use),
    await place(store, "tern", { ...use, take: named.value }),
  ];
}
