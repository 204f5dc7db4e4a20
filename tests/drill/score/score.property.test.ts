import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { parseFraction, toNumber } from "../../../lib/base/index.js";
import { type Drill, rungs, scoreOf } from "../../../lib/drill/index.js";
import { checkScore, type DrillDocument, type DropoutDocument, type Score } from "../../../lib/schema/index.js";
import { parseSpan, resolveSpan } from "../../../lib/time/index.js";
import { compiled, drillOf, jetty, patterns } from "../material.js";

const place: fc.Arbitrary<DropoutDocument> = fc.oneof(
  fc.constant({ at: "end" as const }),
  fc.constant({ at: "start" as const }),
  fc.constant({ at: [2, 4] }),
  fc.record({ at: fc.constant("random" as const), seed: fc.integer({ min: 0, max: 1000 }) }),
);

const document: fc.Arbitrary<DrillDocument> = fc
  .record({
    place,
    phrases: fc.integer({ min: 1, max: 5 }),
    from: fc.integer({ min: 50, max: 90 }),
    by: fc.constantFrom(1, 2.5, 0.1, 7),
    outro: fc.constantFrom("none", "1 bar", "2 bars", "1/2 bar"),
    "count-in": fc.constantFrom("1 bar", "2 bars", "1 beat"),
    open: fc.constantFrom([[]], [[], [3]], [[2, 3], [1]]),
    listen: fc.constantFrom("plays" as const, "drops" as const, "off" as const),
    bass: fc.constantFrom("plays" as const, "drops" as const, "off" as const),
    longest: fc.constantFrom("1/2 bar", "1 bar", "1 1/2 bars"),
    rings: fc.constantFrom([], ["bass"], ["kit", "bass"]),
  })
  .map(({ place: at, from, by, open, listen, bass, longest, rings, ...rest }) =>
    jetty({
      ...rest,
      tempo: undefined,
      variant: undefined,
      dropout: rings.length === 0 ? at : { ...at, "let-ring": rings },
      tolerance: {},
      mixes: { play: {}, other: { lead: listen, bass } },
      ladders: [
        { dropout: { from: "1/4 bar", to: longest, by: "1/4 bar" }, restart: "1 rung back" },
        { tempo: { from, to: from + 3 * by, by } },
        { variant: ["plain", "busy"] },
        { key: ["D dorian", "F dorian"] },
        { parts: [["kit"], ["kit", "bass"]] },
        { open },
      ],
    }),
  );

interface Played {
  readonly drill: Drill;
  readonly score: Score;
  readonly dropout: string;
  readonly place: DropoutDocument["at"];
}

const played: fc.Arbitrary<Played> = fc
  .tuple(document, fc.double({ min: 0, max: 1, maxExcluded: true, noNaN: true }), fc.constantFrom("play", "other"))
  .map(([written, share, mix]) => {
    const drill = drillOf(written);
    const all = rungs(drill);
    const rung = all.at(Math.floor(share * all.count));
    return { drill, score: scoreOf(rung, mix), dropout: rung.settings.dropout!, place: written.dropout!.at };
  });

const at = (text: string | undefined): number => toNumber(parseFraction(text!)!);
/** Two roundings to a nanosecond. */
const NANOSECONDS = 2e-9;

describe("scoreOf()", () => {
  test("expects onsets in order of time, each position once, in the bar they lie in", () => {
    fc.assert(
      fc.property(played, ({ score }) => {
        const { expected, bars } = score;
        for (let i = 1; i < expected.length; i++) expect(expected[i]!.at).toBeGreaterThan(expected[i - 1]!.at);
        for (const onset of expected) {
          const bar = bars[onset.bar - 1]!;
          expect(at(onset.position)).toBeGreaterThanOrEqual(at(bar.position));
          const next = bars[onset.bar];
          if (next !== undefined) expect(at(onset.position)).toBeLessThan(at(next.position));
        }
      }),
    );
  });

  test("keeps positions and seconds together at one tempo", () => {
    fc.assert(
      fc.property(played, ({ score }) => {
        const perWhole = (60 / score.tempo!) * 4;
        const pairs = [...score.expected, ...score.bars, ...score.parts.flatMap(({ notes }) => notes)];
        for (const one of pairs) expect(Math.abs(one.at - at(one.position) * perWhole)).toBeLessThan(NANOSECONDS);
        for (const { from, fromPosition, to, toPosition } of score.dropouts) {
          expect(Math.abs(from - at(fromPosition) * perWhole)).toBeLessThan(NANOSECONDS);
          expect(Math.abs(to - at(toPosition) * perWhole)).toBeLessThan(NANOSECONDS);
        }
      }),
    );
  });

  test("lets no note of a part that drops sound in a silence, and none after the take", () => {
    fc.assert(
      fc.property(played, ({ score }) => {
        for (const { notes, does, rings } of score.parts) {
          if (does === "off") expect(notes).toEqual([]);
          for (const note of notes) {
            expect(note.at + note.seconds).toBeLessThan(score.duration + NANOSECONDS);
            expect(note.seconds).toBeGreaterThan(0);
            if (does !== "drops") continue;
            // A note that is let ring may begin before a silence, and end with it at the latest.
            const into = score.dropouts.filter(({ from, to }) =>
              rings === true
                ? note.at < to - NANOSECONDS &&
                  (note.at > from - NANOSECONDS || (note.at < from && note.at + note.seconds > to + NANOSECONDS))
                : note.at < to - NANOSECONDS && note.at + note.seconds > from + NANOSECONDS,
            );
            expect(into).toEqual([]);
          }
        }
      }),
    );
  });

  test("gives every silence its exact length, one for each phrase and place", () => {
    fc.assert(
      fc.property(played, ({ drill, score, dropout, place: where }) => {
        const span = parseSpan(dropout);
        const length = span.ok ? toNumber(resolveSpan(span.value, drill.pattern.bars[0]!.meter)) : Number.NaN;
        expect(score.dropouts.length).toBe(drill.phrases * (Array.isArray(where) ? where.length : 1));
        for (const { fromPosition, toPosition } of score.dropouts)
          expect(at(toPosition) - at(fromPosition)).toBe(length);
      }),
    );
  });

  test("returns on a bar line wherever silences end on stated bar lines", () => {
    fc.assert(
      fc.property(played, ({ score, place: where }) => {
        if (where === "start") return;
        const lines = new Set([...score.bars.map((bar) => bar.at), score.duration]);
        for (const { to, landing } of score.dropouts) {
          expect(lines.has(to)).toBe(true);
          expect(landing).toBe(to < score.duration ? to : null);
        }
      }),
    );
  });

  test("covers count-in and take with what is audible and what is silent, without overlap", () => {
    fc.assert(
      fc.property(played, ({ score }) => {
        const silences = score.dropouts.filter(({ silent }) => silent);
        const edges = [...score.audible, ...silences].sort((a, b) => a.from - b.from);
        expect(edges[0]!.from).toBe(-score.countIn + 0);
        for (let i = 1; i < edges.length; i++) expect(edges[i]!.from).toBe(edges[i - 1]!.to);
        expect(edges.at(-1)!.to).toBe(score.duration);
      }),
    );
  });

  test("expects the same in every mix, and nothing in open bars", () => {
    fc.assert(
      fc.property(document, (written) => {
        const rung = rungs(drillOf(written)).at(0);
        expect(scoreOf(rung, "other").expected).toEqual(scoreOf(rung, "play").expected);
      }),
    );
    fc.assert(
      fc.property(played, ({ score }) => {
        for (const { from, to } of score.open)
          expect(score.expected.filter((onset) => onset.at >= from && onset.at < to)).toEqual([]);
      }),
    );
  });

  test("is what the schema describes", () => {
    fc.assert(
      fc.property(played, ({ score }) => {
        expect(checkScore(JSON.parse(JSON.stringify(score))).ok).toBe(true);
      }),
    );
  });

  test("draws random silences anew for each phrase and each seed, each after an accompanied bar, and the same again", () => {
    const drawn = (seed: number): readonly (string | undefined)[] => {
      const drill = drillOf(jetty({ phrases: 40, tempo: 120, dropout: { length: "1 bar", at: "random", seed } }));
      return scoreOf(rungs(drill).at(0)).dropouts.map(({ fromPosition }) => fromPosition);
    };
    expect(drawn(1)).toEqual(drawn(1));
    expect(drawn(1)).not.toEqual(drawn(2));
    const inPhrase = drawn(1).map((from, phrase) => at(from) - 4 * phrase);
    // A bar of silence after the first bar of a phrase of four: at bar 2, 3 or 4. All occur in 40 draws but for a chance of 3 (2/3)^40.
    expect([...new Set(inPhrase)].sort()).toEqual([1, 2, 3]);
  });

  test("draws random silences anew for each draw of a take, and says which; silences at stated places stay", () => {
    const at = "random" as const;
    const rung = rungs(drillOf(jetty({ phrases: 40, tempo: 120, dropout: { length: "1 bar", at, seed: 1 } }))).at(0);
    const drawn = (draw?: string): unknown => scoreOf(rung, undefined, draw).dropouts;
    expect(drawn("monday")).toEqual(drawn("monday"));
    expect(drawn("monday")).not.toEqual(drawn("tuesday"));
    expect(drawn("monday")).not.toEqual(drawn());
    expect(scoreOf(rung, undefined, "monday").draw).toBe("monday");
    const stated = rungs(drillOf(jetty())).at(0);
    expect(scoreOf(stated, undefined, "monday")).toEqual(scoreOf(stated));
  });

  test("has problems, not exceptions, for silences that fit nowhere", () => {
    const lengths = fc.constantFrom("3 bars", "4 bars", "5 bars", "17 beats", "9999 bars");
    fc.assert(
      fc.property(place, lengths, (where, length) => {
        const result = compiled(jetty({ dropout: { ...where, length } }));
        if (result.ok) expect(() => scoreOf(rungs(result.value).at(0))).not.toThrow();
        else
          expect(result.problems.map(({ code }) => code)).toContain(
            length === "4 bars" && where.at !== "random" && !Array.isArray(where.at)
              ? "DROPOUT_NEVER_RETURNS"
              : "DROPOUT_LONGER_THAN_PHRASE",
          );
      }),
    );
    expect(patterns.jetty!.bars.length).toBe(4);
  });
});
