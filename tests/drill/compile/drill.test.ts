import { describe, expect, test } from "vitest";
import { fraction, problemsIn } from "../../../lib/base/index.js";
import { compileDrill, type Drill, driftError, rungs, scoreOf, settingsText } from "../../../lib/drill/index.js";
import type { DrillDocument } from "../../../lib/schema/index.js";
import { compiled, drillOf, found, jetty, patterns } from "../material.js";

type Changes = { readonly [K in keyof DrillDocument]?: DrillDocument[K] | undefined };

describe("compileDrill()", () => {
  test("has nothing to say about a sound drill", () => {
    expect(found(jetty())).toEqual([]);
  });

  test("fills in what a drill leaves out as the schema does", () => {
    const drill = drillOf({
      pattern: "jetty",
      student: "lead",
      tempo: 92,
      variant: "plain",
      tolerance: { steadiness: "25 ms" },
    });
    const usual: Partial<Drill> = {
      phrases: 4,
      countIn: { n: 1, d: 1 },
      outro: { n: 1, d: 1 },
      beat: { n: 1, d: 4 },
      gate: { kind: "clean of last", clean: 3, of: 4 },
      mixes: [{ name: "play", parts: {} }],
      needs: [],
      players: [],
    };
    expect(drill).toMatchObject(usual);
    expect(drill.goBack).toBeUndefined();
    expect(drill.dropout).toBeUndefined();
  });

  test("reads gates, going back, tolerance and players", () => {
    const drill = drillOf(
      jetty({
        gate: { sequential: { able: "90 %", unready: "60 %" } },
        "go-back": { after: 3, by: "2 rungs" },
        tolerance: { drift: "60 ms", landing: "40 ms", steadiness: "25 ms" },
        players: ["trumpet", { instrument: "tuba", octave: -2 }],
      }),
    );
    expect(drill.gate).toEqual({ kind: "sequential", able: 0.9, unready: 0.6, wronglyLetOn: 0.05, wronglyHeld: 0.1 });
    expect(drill.goBack).toEqual({ after: 3, by: 2 });
    expect(drill.tolerance).toEqual({ drift: { ms: 60 }, landing: 40, steadiness: 25 });
    expect(drill.players.map(({ instrument, octave }) => [instrument.name, octave])).toEqual([
      ["trumpet", 0],
      ["tuba", -2],
    ]);
    const played = drillOf(jetty({ tolerance: { drift: "4 %", played: "3/4" } }));
    expect(played.tolerance.played).toEqual(fraction(3, 4));
    expect(scoreOf(rungs(played).at(0)).tolerance).toEqual({ driftPercent: 4, playedShare: 0.75 });
    expect(drillOf(jetty({ tolerance: { drift: "4 %", played: "60 %" } })).tolerance.played).toEqual(fraction(3, 5));
    expect(drillOf(jetty({ gate: { "in-a-row": 2 } })).gate).toEqual({ kind: "in a row", count: 2 });
  });

  test("names only what the drill states or climbs in a rung's settings", () => {
    const text = (changes: Changes): string => settingsText(rungs(drillOf(jetty(changes))).at(0).settings);
    expect(text({})).toBe("dropout=1/2 bar,tempo=92,variant=plain");
    expect(text({ key: "g Dorian", dropout: { length: "2/4 bar", parts: ["kit", "bass"] } })).toBe(
      "dropout=1/2 bar,key=G dorian,parts=bass+kit,tempo=92,variant=plain",
    );
  });

  test.each<[string, Changes]>([
    ["PATTERN_UNKNOWN /pattern", { pattern: "jety" }],
    ["PART_UNKNOWN /student", { student: "leed" }],
    ["PART_UNKNOWN /dropout/parts/1", { dropout: { length: "1/2 bar", parts: ["kit", "base"] } }],
    ["STUDENT_AMONG_DROPPING_PARTS /dropout/parts/0", { dropout: { length: "1/2 bar", parts: ["lead"] } }],
    ["PART_UNKNOWN /mixes/play/kitt", { mixes: { play: { kitt: "off" } } }],
    ["VARIANT_UNKNOWN /variant", { variant: "plane" }],
    ["STUDENT_PLAYS_NOTHING /variant", { pattern: "buoy", variant: "none" }],
    ["VARIANT_NOT_CHOSEN ", { variant: undefined }],
    ["INSTRUMENT_UNKNOWN /players/0", { players: ["trumpett"] }],
    ["INSTRUMENT_UNKNOWN /players/0/instrument", { players: [{ instrument: "trumpett", octave: 1 }] }],
    ["SCALE_UNKNOWN /open/scale", { open: { bars: [2], scale: "D dorien" } }],
    ["SCALE_UNKNOWN /key", { key: "D dorien" }],
    ["TEMPO_MISSING ", { tempo: undefined }],
    ["DROPOUT_WITHOUT_LENGTH /dropout", { dropout: {} }],
    ["SPAN_UNIT_UNKNOWN /dropout/length", { dropout: { length: "1/2 ba" } }],
    ["SPAN_NOT_READ /count-in", { "count-in": "soon" }],
    ["BEAT_UNIT_NOT_READ /beat", { beat: "5/4" }],
    ["OUTRO_LONGER_THAN_PHRASE /outro", { outro: "5 bars" }],
    ["DROPOUT_BAR_OUTSIDE_PATTERN /dropout/at/1", { dropout: { length: "1/2 bar", at: [2, 5] } }],
    ["DROPOUT_LONGER_THAN_PHRASE /dropout/length", { dropout: { length: "5 bars" } }],
    ["DROPOUT_LONGER_THAN_PHRASE /dropout/length", { dropout: { length: "4 bars", at: "random" } }],
    ["DROPOUT_LONGER_THAN_PHRASE /dropout/length", { dropout: { length: "3 bars", at: [2, 4] } }],
    ["DROPOUT_NEVER_RETURNS /dropout/length", { dropout: { length: "4 bars" } }],
    ["DROPOUT_NEVER_RETURNS /dropout/length", { dropout: { length: "2 bars", at: [2, 4] } }],
    ["DROPOUT_NEVER_RETURNS /dropout/length", { dropout: { length: "1 bar", at: [1, 4] } }],
    ["NOTHING_BEFORE_FIRST_SILENCE /dropout/length", { dropout: { length: "1 bar", at: "start" }, "count-in": "none" }],
    ["LAST_SILENCE_WITHOUT_LANDING /dropout/length", { outro: "none" }],
    ["OPEN_BAR_OUTSIDE_PATTERN /open/bars/0", { open: { bars: [5] } }],
    ["SETTING_NEVER_USED /tempo", { ladders: [{ tempo: [84, 88] }] }],
    ["LADDER_CHANGES_NOTHING /ladders/0/parts", { dropout: undefined, ladders: [{ parts: [["kit"]] }] }],
    ["DROPOUT_ONLY_OVER_OPEN_BARS /dropout/length", { open: { bars: [1, 4] }, tolerance: { drift: "9 %" } }],
    ["LANDING_WITHOUT_EXPECTED_ONSET /dropout/length", { open: { bars: [1] } }],
    [
      "DROPOUT_WITHOUT_EXPECTED_ONSET /dropout/length",
      { dropout: { length: "1/4 bar", at: "start" }, pattern: "swell", variant: undefined, student: "lead" },
    ],
    ["DROPOUT_NOT_JUDGED /tolerance", { tolerance: { steadiness: "25 ms" } }],
    ["NOTHING_JUDGED /tolerance", { tolerance: {} }],
    ["MIX_LEAVES_NOTHING_TO_PLAY_TO /mixes/alone", { mixes: { alone: { kit: "off", bass: "off" } } }],
    [
      "MIX_CONTRADICTS_DROPOUT /mixes/play/bass",
      { dropout: { length: "1/2 bar", parts: ["kit"] }, mixes: { play: { bass: "drops" } } },
    ],
    ["DROPOUT_NEVER_SILENT /mixes/play", { mixes: { play: { bass: "plays" } } }],
    ["BEAT_SLOWER_THAN_SYNCHRONISATION /tempo", { tempo: 33 }],
    ["SUBDIVISION_FASTER_THAN_SYNCHRONISATION /tempo", { variant: "busy", tempo: 250 }],
    ["SUBDIVISION_TOO_FAST_TO_FOLLOW /tempo", { variant: "busy", tempo: 301 }],
    [
      "SUBDIVISION_TOO_FAST_TO_FOLLOW /ladders/0/tempo",
      { variant: "busy", tempo: undefined, ladders: [{ tempo: { from: 100, to: 301, by: 1 } }] },
    ],
    ["DRILL_TAKE_TOO_LONG /phrases", { phrases: 64, tempo: 17, tolerance: { drift: "4 %" } }],
    ["TOLERANCE_NOT_READ /tolerance/drift", { tolerance: { drift: "0 %" } }],
    ["TOLERANCE_NOT_READ /tolerance/played", { tolerance: { drift: "4 %", played: "5/4" } }],
    ["TOLERANCE_NOT_READ /tolerance/played", { tolerance: { drift: "4 %", played: "1/0" } }],
    ["NOTHING_JUDGED /tolerance", { tolerance: { played: "3/4" } }],
    ["TOLERANCE_NOT_READ /tolerance/landing", { tolerance: { drift: "4 %", landing: "2 %" } }],
    ["TOLERANCE_BELOW_HEARING /tolerance/drift", { tolerance: { drift: "1.4 %" }, dropout: { length: "2 bars" } }],
    ["TOLERANCE_BELOW_HEARING /tolerance/landing", { tolerance: { landing: "10 ms" } }],
    ["TOLERANCE_OFTEN_UNCLEAR /tolerance/drift", { tolerance: { drift: "9 ms" } }],
    ["TOLERANCE_BELOW_MEASUREMENT /tolerance/drift", { tolerance: { drift: "3 ms" } }],
    ["GATE_FORM /gate", { gate: {} }],
    ["GATE_FORM /gate", { gate: { clean: 3 } }],
    ["GATE_FORM /gate", { gate: { clean: 3, of: 4, "in-a-row": 2 } }],
    ["GATE_CANNOT_BE_MET /gate/clean", { gate: { clean: 5, of: 4 } }],
    ["GATE_CANNOT_BE_MET /gate/in-a-row", { gate: { "in-a-row": 0 } }],
    ["GATE_CANNOT_BE_MET /gate/sequential/able", { gate: { sequential: { able: "60 %", unready: "90 %" } } }],
    ["GATE_SHARE_NOT_READ /gate/sequential/able", { gate: { sequential: { able: "100 %", unready: "60 %" } } }],
    [
      "GATE_SHARE_NOT_READ /gate/sequential/wrongly-held",
      { gate: { sequential: { able: "90 %", unready: "60 %", "wrongly-held": "50 %" } } },
    ],
    ["GO_BACK_NOT_READ /go-back/by", { "go-back": { after: 3, by: "-1 rung" } }],
    ["GO_BACK_GOES_NOWHERE /go-back/by", { "go-back": { after: 3, by: "0 rungs" } }],
    ["GO_BACK_GOES_NOWHERE /go-back/after", { "go-back": { after: 0 } }],
    ["WRITTEN_BELOW_RANGE /players/0", { players: ["flute"], ladders: [{ key: ["D dorian", "A dorian"] }] }],
  ])("reports %s and nothing that follows from it", (expected, changes) => {
    const all = found(jetty(changes));
    expect(all).toContain(expected);
    // What is said beside it is at most one consequence: a silence nobody can judge is also one nobody re-enters after.
    expect(new Set(all).size).toBeLessThanOrEqual(2);
  });

  test("finds all problems of a drill at once", () => {
    const codes = found(
      jetty({
        tempo: undefined,
        gate: { clean: 5, of: 4 },
        ladders: [{ variant: [] }, { key: ["H dorian"] }],
        players: ["trumpett"],
      }),
    );
    expect([...codes].sort()).toEqual([
      "GATE_CANNOT_BE_MET /gate/clean",
      "INSTRUMENT_UNKNOWN /players/0",
      "KEY_NOT_READ /ladders/1/key/0",
      "LADDER_EMPTY /ladders/0/variant",
      "SETTING_NEVER_USED /variant",
      "TEMPO_MISSING ",
    ]);
  });

  test("checks the range in every key of the ladder, and says in which", () => {
    const keys = ["D dorian", "A dorian", "G dorian"];
    const result = compiled(jetty({ players: ["flute"], ladders: [{ key: keys }] }));
    // A is a fourth below D; D4 becomes A3, below the flute's C4.
    expect(result.ok && result.advice.find(({ code }) => code === "WRITTEN_BELOW_RANGE")?.message).toMatch(
      /^in A dorian, .*goes down to written A3/,
    );
  });

  test("fails without problems of its own over a pattern that has problems", () => {
    const result = compileDrill("drill", jetty(), { patterns: { ...patterns, jetty: undefined }, instruments: {} });
    expect(result).toEqual({ ok: false, problems: [] });
  });

  test("does not take names of the language for names of the drill", () => {
    for (const name of ["constructor", "__proto__", "toString"]) {
      expect(found(jetty({ pattern: name }))).toEqual(["PATTERN_UNKNOWN /pattern"]);
      expect(found(jetty({ variant: name }))).toEqual(["VARIANT_UNKNOWN /variant"]);
      expect(found(jetty({ players: [name] }))).toEqual(["INSTRUMENT_UNKNOWN /players/0"]);
    }
  });

  test("says so when there are more lengths than it checks one by one", () => {
    const climbing = (count: number): DrillDocument =>
      jetty({
        dropout: { at: "start" },
        tolerance: { drift: "60 ms" },
        ladders: [{ dropout: Array.from({ length: count }, (_, k) => `${k + 1}/96 bar`) }],
      });
    expect(found(climbing(128))).not.toContain("LADDERS_NOT_ALL_CHECKED /ladders");
    expect(found(climbing(129))).toContain("LADDERS_NOT_ALL_CHECKED /ladders");
  });

  test("tolerates no less than a take can show: the remedy it names is enough", () => {
    const result = compiled(jetty({ tolerance: { drift: "3 ms" } }));
    const { remedy } = problemsIn(result).find(({ code }) => code === "TOLERANCE_BELOW_MEASUREMENT")!;
    const enough = /allow (\d+ ms) or more/.exec(remedy!)![1]!;
    expect(found(jetty({ tolerance: { drift: enough } })).filter((code) => /MEASUREMENT|UNCLEAR/.test(code))).toEqual(
      [],
    );
    // Half a bar of two beats with notes on its beats and on the downbeat after it.
    expect(enough).toBe(`${Math.ceil(1.96 * driftError({ onsets: [0, 1, 2], beats: 2 }))} ms`);
  });

  test("leaves every rung of a sound drill playable", () => {
    const drill = drillOf(
      jetty({
        tempo: undefined,
        variant: undefined,
        dropout: { at: "random" },
        ladders: [
          { dropout: { from: "1/2 bar", to: "2 bars", by: "1/2 bar" } },
          { tempo: [72, 96] },
          { variant: ["plain", "busy"] },
        ],
      }),
    );
    const all = rungs(drill);
    for (let i = 0; i < all.count; i++) expect(scoreOf(all.at(i)).dropouts.length).toBe(2);
  });
});
