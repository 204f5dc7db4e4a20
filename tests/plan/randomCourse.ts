import fc from "fast-check";
import { type Curriculum, readCurriculum } from "../../lib/curriculum/index.js";

/** Lines of a student's part, a bar each, from sparse to dense. */
const BARS = [
  "1/1 D4",
  "1/2 D4 F4",
  "1/4 D4 - F4 A4",
  "1/4 D4 F4 G4 A4",
  "1/8 D4 F4 - G4 A4 - F4 E4",
  "1/4 - F4 1/2 G4",
];

export interface RandomDrill {
  readonly bars: readonly [string, ...string[]];
  readonly silence: string;
  readonly leaving: "kit" | "kit, bass";
  readonly at: "end" | "start";
  readonly phrases: number;
  readonly tempo: number;
  readonly climbs: number;
  readonly drift: string | undefined;
  readonly landing: number | undefined;
  readonly steadiness: number | undefined;
  readonly gate: string;
  readonly goBack: boolean;
  readonly needs: boolean;
}

const drills: fc.Arbitrary<RandomDrill> = fc.record({
  bars: fc.tuple(fc.constantFrom(...BARS), fc.constantFrom(...BARS), fc.constantFrom(...BARS)),
  silence: fc.constantFrom("", "1 beat", "1/2 bar", "1 bar", "1 1/2 bars", "2 bars"),
  leaving: fc.constantFrom("kit" as const, "kit, bass" as const),
  at: fc.constantFrom("end" as const, "start" as const),
  phrases: fc.integer({ min: 1, max: 6 }),
  tempo: fc.integer({ min: 50, max: 140 }),
  climbs: fc.integer({ min: 0, max: 5 }),
  drift: fc.option(fc.constantFrom("1 %", "2 %", "4 %", "8 %", "20 ms", "60 ms"), { nil: undefined }),
  landing: fc.option(fc.integer({ min: 20, max: 200 }), { nil: undefined }),
  steadiness: fc.option(fc.integer({ min: 10, max: 60 }), { nil: undefined }),
  gate: fc.constantFrom("{ clean: 3, of: 4 }", "{ clean: 1, of: 1 }", "{ in-a-row: 2 }", "{ clean: 5, of: 8 }"),
  goBack: fc.boolean(),
  needs: fc.boolean(),
});

/** A course of some drills over one riff, or `undefined` when `check` finds errors in it. */
function courseOf(all: readonly RandomDrill[]): Curriculum | undefined {
  const patterns = all.map(
    ({ bars }, i) => `
  quay-${i}:
    meter: 4/4
    bars: ${bars.length}
    key: D dorian
    parts:
      kit: { voices: { hat: "x-x-x-x-|...", kick: "x---x---|..." } }
      bass: { instrument: double bass, notes: "1/2 D2 A2 | ..." }
      lead: { notes: "${bars.join(" | ")}" }`,
  );
  const written = all.map((each, i) => {
    const { drift, landing, steadiness } = each;
    const tolerance = [
      ...(drift === undefined ? [] : [`drift: ${drift}`]),
      ...(landing === undefined ? [] : [`landing: ${landing} ms`]),
      ...(steadiness === undefined ? [] : [`steadiness: ${steadiness} ms`]),
    ];
    return `
  drill-${i}:
    pattern: quay-${i}
    student: lead
    phrases: ${each.phrases}
    outro: 1 bar${
      each.silence === ""
        ? ""
        : `
    dropout: { length: ${each.silence}, at: ${each.at}, parts: [${each.leaving}] }`
    }
    mixes: { play: { lead: off } }
    ladders: [{ tempo: { from: ${each.tempo}, to: ${each.tempo + 8 * each.climbs}, by: 8 } }]${
      tolerance.length === 0 ? "" : `\n    tolerance: { ${tolerance.join(", ")} }`
    }
    gate: ${each.gate}${each.goBack ? "\n    go-back: { after: 3 }" : ""}${each.needs && i > 0 ? `\n    needs: [drill-${i - 1}]` : ""}`;
  });
  const text = `curriculum: quayside-random\nedition: 1.0.0\ntitle: Quayside by chance\npatterns:${patterns.join("")}\ndrills:${written.join("")}\n`;
  const read = readCurriculum(text, { file: "random.yaml", readFile: () => undefined });
  return read.ok ? read.value : undefined;
}

/** Courses of one to four drills in which `check` finds no error. */
export const someCourse: fc.Arbitrary<Curriculum> = fc
  .array(drills, { minLength: 1, maxLength: 4 })
  .map(courseOf)
  .filter((course) => course !== undefined);
