import type { Problem, Result } from "../../lib/base/index.js";
import { compileDrill, type Drill } from "../../lib/drill/index.js";
import { compilePattern, type Pattern, type PatternDocument } from "../../lib/pattern/index.js";
import type { DrillDocument } from "../../lib/schema/index.js";

/** Patterns of the quayside school, invented for these tests. */
const PATTERNS: Readonly<Record<string, PatternDocument>> = {
  jetty: {
    meter: "4/4",
    bars: 4,
    key: "D dorian",
    chords: "Dm7 | G7 | same | A7 Dm7",
    parts: {
      kit: { voices: { hat: "x-x-x-x- | ...", kick: "x---x--- | ..." } },
      bass: { instrument: "double bass", notes: "1/2 D2 A2 | 1/1 G2 | G2 | 1/2 A2 D2" },
      lead: {
        variants: {
          plain: { notes: "1/4 D4 F4 A4 - | G4 - B4 - | G4 F4 1/2 D4 | 1/4 A4 A4 D4 E4" },
          busy: {
            notes:
              "1/8 D4 D4 F4 F4 1/4 A4 - | 1/8 G4 - B4 - 1/4 B4 A4 | 1/8 G4 F4 E4 D4 1/2 D4 | 1/8 A4 A4 1/4 A4 1/8 D4 - 1/4 E4",
          },
        },
      },
    },
  },
  shuffle: {
    meter: "4/4",
    bars: 2,
    key: "F major",
    swing: "2:1 1/8 note",
    "pick-up": "1/4 note",
    parts: {
      kit: { voices: { hat: "----|xxxxxxxx|x-x-x---" } },
      lead: { notes: "1/8 C4 E4 | F4 A4 1/4 C5 1/8 - A4 1/4 F4 | G4 E4 F4 -" },
    },
  },
  swell: {
    meter: "6/8",
    bars: 2,
    key: "G major",
    parts: {
      kit: { voices: { hat: "x--x-- | same" } },
      lead: { notes: "3/8 G4 1/4 B4 1/8 A4 | 3/8 G4 D4" },
    },
  },
  pier: {
    meter: "4/4",
    bars: 10,
    key: "D dorian",
    parts: {
      kit: { voices: { hat: "x-x- | ..." } },
      lead: { notes: "1/4 D4 E4 F4 E4 | ..." },
    },
  },
  buoy: {
    meter: "4/4",
    bars: 4,
    key: "D dorian",
    parts: {
      kit: { voices: { hat: "x-x- | ..." } },
      lead: {
        variants: {
          rare: { notes: "1/4 D4 3/4 - | rest | 1/2 - F4 | rest" },
          late: { notes: "3/4 - 1/4 D4 | - E4 1/2 - | rest | 1/4 D4 3/4 -" },
          none: { notes: "rest | rest | rest | rest" },
          even: { notes: "1/2 D4 D4 | D4 D4 | D4 D4 | D4 D4" },
        },
      },
    },
  },
  tide: {
    meter: "4/4",
    "meter-changes": [{ bar: 3, meter: "3/4" }],
    bars: 3,
    key: "C major",
    parts: {
      kit: { voices: { hat: "x-x- | same|xxx" } },
      lead: { notes: "1/4 C4 D4 E4 F4 | G4 F4 E4 D4 | C4 E4 G4" },
    },
  },
};

export const patterns: Readonly<Record<string, Pattern>> = Object.fromEntries(
  Object.entries(PATTERNS).map(([name, document]) => {
    const compiled = compilePattern(name, document, { instruments: {}, files: () => undefined });
    if (!compiled.ok) throw new Error(compiled.problems.map((problem) => problem.message).join("; "));
    return [name, compiled.value];
  }),
);

/** A sound drill over the jetty riff, to be changed by each test. */
export const JETTY: DrillDocument = {
  pattern: "jetty",
  student: "lead",
  phrases: 2,
  tempo: 92,
  variant: "plain",
  dropout: { length: "1/2 bar" },
  mixes: { play: {}, listen: { lead: "plays" } },
  tolerance: { drift: "4 %", landing: "60 ms" },
};

/** JETTY with changes; a change to `undefined` leaves the key out. */
export function jetty(
  changes: { readonly [K in keyof DrillDocument]?: DrillDocument[K] | undefined } = {},
): DrillDocument {
  const entries = Object.entries({ ...JETTY, ...changes }).filter(([, value]) => value !== undefined);
  return Object.fromEntries(entries) as unknown as DrillDocument;
}

export function compiled(document: DrillDocument): Result<Drill> {
  return compileDrill("drill", document, { patterns, instruments: {} });
}

export function drillOf(document: DrillDocument): Drill {
  const result = compiled(document);
  if (!result.ok) throw new Error(JSON.stringify(result.problems, null, 1));
  return result.value;
}

/** Problems and advice of a document, as code and pointer. */
export function found(document: DrillDocument): readonly string[] {
  const result = compiled(document);
  return (result.ok ? result.advice : result.problems).map(
    (problem: Problem) => `${problem.code} ${problem.where.pointer}`,
  );
}
