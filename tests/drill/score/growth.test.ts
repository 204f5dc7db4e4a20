import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { parseFraction, toNumber } from "../../../lib/base/index.js";
import {
  type Drill,
  findRung,
  lengthsInTake,
  rungs,
  type Settings,
  scoreOf,
  settingsText,
} from "../../../lib/drill/index.js";
import type { DropoutDocument, GrowthDocument, LadderDocument, Score } from "../../../lib/schema/index.js";
import { compiled, drillOf, found, jetty } from "../material.js";

const growing = (grows: DropoutDocument["grows"], more: Partial<DropoutDocument> = {}, phrases?: number): Drill =>
  drillOf(jetty({ phrases, tolerance: {}, dropout: { grows: grows!, ...more } }));
const first = (drill: Drill): Score => scoreOf(rungs(drill).at(0));
const places = ({ dropouts }: Score): readonly (readonly [number, number])[] =>
  dropouts.map(({ fromPosition, toPosition }) => [number(fromPosition!), number(toPosition!)]);
const number = (text: string): number => toNumber(parseFraction(text)!);
const WORKOUT: GrowthDocument = { from: "1/2 bar", to: "1 1/2 bars", by: "1/2 bar", each: "2 phrases" };

describe("silences that grow inside one take", () => {
  test("half a bar, a bar and a bar and a half, each for two phrases of four bars: six phrases (worked out by hand)", () => {
    const drill = growing(WORKOUT);
    expect(drill.phrases).toBe(6);
    expect(places(first(drill))).toEqual([
      [3.5, 4],
      [7.5, 8],
      [11, 12],
      [15, 16],
      [18.5, 20],
      [22.5, 24],
    ]);
    expect(rungs(drill).at(0).settings.dropout).toBe("1/2 bar to 1 1/2 bars by 1/2 bar each 2 phrases");
    expect(lengthsInTake(drill, rungs(drill).at(0).settings)).toEqual([
      "1/2 bar",
      "1/2 bar",
      "1 bar",
      "1 bar",
      "1 1/2 bars",
      "1 1/2 bars",
    ]);
  });

  test("the last length holds to the end of a longer take", () => {
    expect(places(first(growing(["1/2 bar", "1 bar"], {}, 4))).map(([from, to]) => to - from)).toEqual([0.5, 1, 1, 1]);
  });

  test("a list is one length for each phrase, and the same steps are the same rung", () => {
    const list = growing(["1/2 bar", "1/2 bar", "1 bar", "1 bar", "1 1/2 bars", "1 1/2 bars"]);
    expect(first(list)).toEqual(first(growing(WORKOUT)));
    expect(first(growing({ lengths: ["2 beats", "4 beats"], each: "2 phrases" })).rung).toContain(
      "dropout=2 beats to 4 beats by 2 beats each 2 phrases",
    );
  });

  test("a ladder climbs over what they grow to; a rung's settings name the range", () => {
    const drill = drillOf(
      jetty({
        phrases: undefined,
        tolerance: {},
        dropout: { grows: { from: "1/2 bar", by: "1/2 bar", each: "2 phrases" } },
        ladders: [{ grows: ["1 bar", "1 1/2 bars", "8 beats"] }],
      }),
    );
    const all = rungs(drill);
    expect([drill.phrases, all.count]).toEqual([8, 3]);
    expect([0, 1, 2].map((k) => all.at(k).settings.dropout)).toEqual([
      "1/2 bar to 1 bar by 1/2 bar each 2 phrases",
      "1/2 bar to 1 1/2 bars by 1/2 bar each 2 phrases",
      "1/2 bar to 2 bars by 1/2 bar each 2 phrases",
    ]);
    expect(all.indexOf(all.at(2).settings)).toBe(2);
    expect(findRung(drill, "dropout=2 beats to 6 beats by 2 beats each 2 phrases")).toMatchObject({
      ok: true,
      value: { index: 1 },
    });
    const steps: LadderDocument = { grows: { from: "1 bar", to: "2 bars", by: "1/2 bar" } };
    const { ladders } = drillOf(
      jetty({
        phrases: undefined,
        tolerance: {},
        dropout: { grows: { from: "1/2 bar", by: "1/2 bar", each: "2 phrases" } },
        ladders: [steps],
      }),
    );
    expect(ladders).toEqual(drill.ladders);
  });

  test("one ladder goes from equal silences to silences that grow", () => {
    const drill = drillOf(
      jetty({
        phrases: undefined,
        tolerance: {},
        dropout: {},
        ladders: [{ dropout: ["1 bar", "1 bar then 3/2 bars then 3 bars each 1 phrase"] }],
      }),
    );
    expect(drill.phrases).toBe(3);
    expect(places(scoreOf(rungs(drill).at(0))).map(([from, to]) => to - from)).toEqual([1, 1, 1]);
    expect(places(scoreOf(rungs(drill).at(1))).map(([from, to]) => to - from)).toEqual([1, 1.5, 3]);
  });

  const place = fc.oneof(
    fc.constant<Partial<DropoutDocument>>({ at: "end" }),
    fc.constant<Partial<DropoutDocument>>({ at: "start" }),
    fc.constant<Partial<DropoutDocument>>({ at: [3, 4] }),
    fc.integer({ min: 0, max: 999 }).map((seed): Partial<DropoutDocument> => ({ at: "random", seed })),
  );
  const counts = fc.array(fc.integer({ min: 1, max: 3 }), { minLength: 1, maxLength: 5 });
  const each = fc.integer({ min: 1, max: 3 });

  test("silences in order never shrink, each is as long as its phrase says, and each but those at the start ends on a downbeat where the landing is", () => {
    fc.assert(
      fc.property(place, counts, each, (at, written, every) => {
        const quarters = [...written].sort((a, b) => a - b);
        const lengths = quarters.map((n) => `${n}/4 bar`);
        const document = jetty({
          phrases: quarters.length * every,
          tolerance: {},
          dropout: { grows: { lengths, each: `${every} phrases` }, ...at },
        });
        const score = scoreOf(rungs(drillOf(document)).at(0));
        const perPhrase = Array.isArray(at.at) ? at.at.length : 1;
        expect(score.dropouts).toHaveLength(quarters.length * every * perPhrase);
        expect(new Set(score.bars.map(({ phrase }) => phrase)).size).toBe(quarters.length * every + 1);
        places(score).forEach(([from, to], i) => {
          const phrase = Math.floor(i / perPhrase);
          expect(to - from).toBeCloseTo(quarters[Math.floor(phrase / every)]! / 4, 9);
          expect(from).toBeGreaterThanOrEqual(4 * phrase);
          expect(to).toBeLessThanOrEqual(4 * (phrase + 1));
          if (at.at !== "start") expect(Number.isInteger(to)).toBe(true);
          expect(score.dropouts[i]!.landing).toBe(score.dropouts[i]!.to);
        });
      }),
      { numRuns: 60 },
    );
  });

  test("what grows from a length to the same length is that length: equal scores", () => {
    fc.assert(
      fc.property(
        place,
        fc.integer({ min: 1, max: 3 }),
        each,
        fc.integer({ min: 1, max: 5 }),
        (at, n, every, phrases) => {
          const length = `${n}/4 bar`;
          const grows = { from: length, to: length, by: "1/2 bar", each: `${every} phrases` };
          const score = (dropout: DropoutDocument): Score =>
            scoreOf(rungs(drillOf(jetty({ phrases, tolerance: {}, dropout: { ...dropout, ...at } }))).at(0));
          expect(score({ grows })).toEqual(score({ length }));
        },
      ),
      { numRuns: 60 },
    );
  });

  test("each phrase sounds as on the rung that has its length throughout", () => {
    const score = first(growing(WORKOUT));
    const notes = (of: Score, phrase: number): unknown =>
      of.parts.map(({ name, notes: all }) => [
        name,
        all
          .filter(({ position }) => Math.floor(number(position) / 4) === phrase)
          .map(({ position, length }) => [position, length]),
      ]);
    ["1/2 bar", "1/2 bar", "1 bar", "1 bar", "1 1/2 bars", "1 1/2 bars"].forEach((length, phrase) => {
      const settings: Settings = { dropout: length, tempo: "92", variant: "plain" };
      const even = scoreOf({ drill: growing(WORKOUT), index: 0, settings });
      expect(notes(score, phrase), settingsText(settings)).toEqual(notes(even, phrase));
      expect(score.expected).toEqual(even.expected);
    });
  });

  test("the checks look at every length", () => {
    expect(found(jetty({ phrases: undefined, tolerance: {}, dropout: { grows: ["1 bar", "5 bars"] } }))).toContain(
      "DROPOUT_LONGER_THAN_PHRASE /dropout/grows",
    );
    expect(found(jetty({ phrases: 3, tolerance: {}, dropout: { grows: ["1 bar", "2 bars", "4 bars"] } }))).toContain(
      "DROPOUT_NEVER_RETURNS /dropout/grows",
    );
  });

  test("what cannot be meant is answered at its place, with what to write", () => {
    const remedies = (
      dropout: DropoutDocument,
      more: Parameters<typeof jetty>[0] = {},
    ): readonly (string | undefined)[] => {
      const result = compiled(jetty({ tolerance: {}, dropout, ...more }));
      return (result.ok ? result.advice : result.problems)
        .filter(({ code }) => code !== "NOTHING_JUDGED")
        .map(({ code, where, remedy }) => `${code} ${where.pointer}: ${remedy}`);
    };
    expect(remedies({ grows: WORKOUT })).toEqual(["GROWTH_LONGER_THAN_TAKE /phrases: write phrases: 6"]);
    expect(remedies({ grows: { ...WORKOUT, to: "1 1/4 bars" } }, { phrases: 6 })).toEqual([
      "LADDER_NEVER_REACHES_ITS_END /dropout/grows/to: write 1 bar or 1 1/2 bars",
    ]);
    expect(remedies({ grows: WORKOUT }, { phrases: 8, ladders: [{ grows: ["1 bar", "2 bars"] }] })).toEqual([
      "SETTING_NEVER_USED /dropout/grows/to: leave it out",
    ]);
    expect(remedies({ grows: WORKOUT }, { phrases: 8, ladders: [{ dropout: ["1 bar", "2 bars"] }] })).toEqual([
      "SETTING_NEVER_USED /dropout/grows: leave it out",
    ]);
    // The line that is wrong is told once, however many values the ladder has, and a wrong value of the ladder beside it.
    expect(
      remedies({ grows: { from: "1/2 measure", by: "1/2 bar" } }, { ladders: [{ grows: ["1 bar", "2 measures"] }] }),
    ).toEqual([
      "SPAN_UNIT_UNKNOWN /dropout/grows/from: write 1/2 bar",
      "SPAN_UNIT_UNKNOWN /ladders/0/grows/1: write 2 bars",
    ]);
    expect(
      remedies({ grows: { from: "1/2 bar", by: "1/2 bar" } }, { ladders: [{ grows: ["1 bar", "4 beats"] }] }),
    ).toEqual(["LADDER_REPEATS_A_VALUE /ladders/0/grows/1: leave one out"]);
    expect(
      remedies(
        { grows: { from: "1/2 bar", by: "1/2 bar" } },
        { ladders: [{ grows: ["1 bar"] }, { dropout: ["1 bar"] }] },
      )[0],
    ).toMatch(/^LADDER_TWICE \/ladders\/1\/dropout/);
    expect(remedies({ grows: ["1/2 bar", "1 bar"] }, { pattern: "tide", variant: undefined, phrases: 2 })).toEqual([]);
    expect(remedies({ grows: ["1/2 bar", "4 beats"] }, { pattern: "tide", variant: undefined, phrases: 2 })).toEqual([
      "LADDER_UNITS_DIFFER /dropout/grows: write all in bars",
    ]);
  });
});
