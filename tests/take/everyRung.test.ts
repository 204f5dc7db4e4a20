import { readdirSync, readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readCurriculum } from "../../lib/curriculum/index.js";
import { rungs, scoreOf, settingsText } from "../../lib/drill/index.js";
import type { DrillDocument, DropoutDocument, Score, Take, ToleranceDocument } from "../../lib/schema/index.js";
import { assess } from "../../lib/take/index.js";
import { compiled, jetty } from "../drill/material.js";
import { sample } from "../samples.js";
import { must } from "../time/shorthand.js";

const FOLDER = new URL("../../curricula/", import.meta.url);

/** Every note exactly where it is written, and one on every other subdivision of bars to improvise in. */
function exactTake({ expected, open }: Score): Take {
  const written = expected.map(({ at, pitch }) => (pitch === undefined ? { at } : { at, pitch }));
  const free = open.flatMap(({ from, to, subdivision, grid }) => {
    const even = Array.from({ length: Math.round((to - from) / subdivision) }, (_, k) => from + k * subdivision);
    return (grid ?? even).filter((_, k) => k % 2 === 0).map((at) => ({ at }));
  });
  return { zero: "bar-1", onsets: [...written, ...free].sort((a, b) => a.at - b.at) };
}

/** The rungs of a drill, evenly spaced when there are more than `most`. */
function spaced(count: number, most: number): number[] {
  return Array.from({ length: Math.min(count, most) }, (_, k) => Math.floor((k * count) / Math.min(count, most)));
}

describe("a take in which every note is exactly in its place is within", () => {
  test.each(readdirSync(FOLDER).filter((file) => file.endsWith(".yaml")))("on the rungs of %s", (file) => {
    const { drills } = must(
      readCurriculum(readFileSync(new URL(file, FOLDER), "utf8"), { file, readFile: () => undefined }),
    );
    const failing = drills.flatMap((drill) =>
      spaced(rungs(drill).count, sample({ suite: 24, proof: 1000 })).flatMap((k) => {
        const rung = rungs(drill).at(k);
        const score = scoreOf(rung);
        const { verdict, reasons } = assess(score, exactTake(score));
        const codes = [...new Set(reasons.map(({ code }) => code))].join(" ");
        return verdict === "within" ? [] : [`${drill.name} ${settingsText(rung.settings)}: ${verdict} ${codes}`];
      }),
    );
    expect(failing).toEqual([]);
  });

  const place: fc.Arbitrary<DropoutDocument> = fc.oneof(
    fc.constant({ at: "end" as const }),
    fc.constant({ at: "start" as const }),
    fc.constant({ at: [2, 4] }),
    fc.record({ at: fc.constant("random" as const), seed: fc.integer({ min: 0, max: 1000 }) }),
  );
  const tolerance: fc.Arbitrary<ToleranceDocument> = fc.record(
    {
      drift: fc.constantFrom("3 %", "6 %", "60 ms", "120 ms"),
      landing: fc.constantFrom("30 ms", "90 ms"),
      steadiness: fc.constantFrom("25 ms", "35 ms"),
    },
    { requiredKeys: [] },
  );
  const document: fc.Arbitrary<DrillDocument> = fc
    .record({
      pattern: fc.constantFrom("jetty", "jetty", "shuffle", "swell"),
      place,
      tolerance,
      phrases: fc.integer({ min: 1, max: 4 }),
      tempo: fc.integer({ min: 40, max: 180 }),
      outro: fc.constantFrom("none", "1 bar", "1/2 bar"),
      length: fc.constantFrom("1 beat", "1/2 bar", "1 bar", "1 1/2 bars", "2 bars", "3 bars"),
      bass: fc.constantFrom("plays" as const, "drops" as const),
      kit: fc.constantFrom("plays" as const, "drops" as const),
      variant: fc.constantFrom("plain", "busy"),
    })
    .map(({ place: at, length, bass, kit, variant, pattern, ...rest }) =>
      jetty({
        ...rest,
        pattern,
        ...(pattern === "jetty" ? { variant } : { variant: undefined }),
        dropout: { ...at, length },
        mixes: { play: pattern === "jetty" ? { kit, bass } : { kit } },
        ladders: [],
      }),
    );

  test("on whatever rung can be written without an error", () => {
    fc.assert(
      fc.property(document, (written) => {
        const drill = compiled(written);
        if (!drill.ok) return;
        const score = scoreOf(rungs(drill.value).at(0));
        const { verdict, reasons, dropouts } = assess(score, exactTake(score));
        expect(verdict, JSON.stringify({ reasons, dropouts, advice: drill.advice })).toBe("within");
      }),
      { numRuns: sample({ suite: 300, proof: 5000 }) },
    );
  });
});
