import { fraction, milliseconds } from "../../lib/base/index.js";
import type { Curriculum } from "../../lib/curriculum/index.js";
import type { Drill, Gate, GoBack, Ladder } from "../../lib/drill/index.js";
import type { Finding, Verdict } from "../../lib/schema/index.js";

/** Quayside courses made of data, for tests that need no music: a bar of 4/4 in which nobody plays. */
export interface DrillSketch {
  readonly name: string;
  /** Lowest tempo, step, and number of tempi. */
  readonly tempi: readonly [from: number, by: number, count: number];
  readonly gate?: Gate;
  readonly goBack?: GoBack;
  readonly needs?: readonly string[];
}

const pattern: Drill["pattern"] = {
  name: "slipway",
  bars: [{ number: 1, position: fraction(0), meter: { kind: "simple", groups: [4], lower: 4 } }],
  length: fraction(1),
  pickup: fraction(0),
  key: { tonic: { letter: "D", alter: 0 }, mode: "dorian" },
  chords: [],
  parts: [{ name: "lead", kind: "pitched", variants: { "": [] } }],
};

export function drillOf(sketch: DrillSketch): Drill {
  const [from, by, count] = sketch.tempi;
  const ladder: Ladder = {
    parameter: "tempo",
    count,
    values: { kind: "tempi", from: fraction(from), by: fraction(by) },
    restart: "bottom",
  };
  return {
    name: sketch.name,
    pattern,
    student: "lead",
    beat: fraction(1, 4),
    phrases: 1,
    countIn: fraction(1),
    outro: fraction(0),
    fixed: { variant: "plain" },
    ladders: [ladder],
    mixes: [{ name: "play", parts: {} }],
    tolerance: { steadiness: milliseconds(25) },
    gate: sketch.gate ?? { kind: "clean of last", clean: 3, of: 4 },
    ...(sketch.goBack === undefined ? {} : { goBack: sketch.goBack }),
    needs: sketch.needs ?? [],
    players: [],
  };
}

export interface CourseOptions {
  readonly edition?: string;
  readonly formerly?: Readonly<Record<string, string>>;
}

export function courseOf(
  drills: readonly DrillSketch[],
  { edition = "1.0.0", formerly = {} }: CourseOptions = {},
): Curriculum {
  return {
    name: "quayside-test-course",
    edition,
    title: "Quayside test course",
    instruments: {},
    patterns: { slipway: pattern },
    drills: drills.map(drillOf),
    formerly,
  };
}

/** Settings text of the rung at a tempo. */
export const at = (tempo: number): string => `tempo=${tempo},variant=plain`;

const unmeasured = { unmeasured: "nothing was played" };

export function findingOf(take: string, drill: string, rung: string, verdict: Verdict): Finding {
  return {
    version: 1,
    take,
    drill,
    rung,
    mix: "play",
    verdict,
    probability: verdict === "within" ? 0.97 : verdict === "beyond" ? 0.02 : unmeasured,
    reasons: [],
    pairs: [],
    missed: [],
    added: [],
    offsetMs: -12.25,
    dropouts: [],
    openBars: [],
    steadiness: {
      accompaniedMs: 14.004,
      aloneMs: unmeasured,
      clockMs: unmeasured,
      motorMs: unmeasured,
      verdict,
      probability: unmeasured,
    },
    sentence: "You kept time.",
  };
}

/** RFC 3339 time so many seconds after the first lesson. */
export function timeOf(seconds: number): string {
  return new Date(Date.UTC(2026, 2, 2, 17, 0, 0) + seconds * 1000).toISOString();
}
