import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { findRung, rungs, settingsText } from "../../../lib/drill/index.js";
import { drillOf, jetty } from "../material.js";

const drill = drillOf(
  jetty({
    tempo: undefined,
    variant: undefined,
    dropout: {},
    ladders: [
      { dropout: { from: "1/2 bar", to: "2 bars", by: "1/2 bar" }, restart: "1 rung back" },
      { tempo: { from: 84, to: 112, by: 4 } },
      { variant: ["plain", "busy"] },
    ],
  }),
);
const all = rungs(drill);

function problemOf(text: string): readonly [string, string, string | undefined] {
  const result = findRung(drill, text);
  if (result.ok) throw new Error(`found rung ${result.value.index}`);
  const { code, message, remedy } = result.problems[0]!;
  return [code, message, remedy];
}

describe("findRung()", () => {
  test("finds every rung by its number from 1 and by its settings", () => {
    for (let i = 0; i < all.count; i++) {
      for (const text of [String(i + 1), settingsText(all.at(i).settings)]) {
        const result = findRung(drill, text);
        expect(result.ok && result.value.index).toBe(i);
      }
    }
  });

  test.each([
    ["dropout=2 beats,tempo=84,variant=plain", 0],
    ["variant=plain, dropout=1/2 note, tempo=84.0", 0],
    // The half bar is left behind after the first tempo, so it names one rung.
    ["dropout=1/2 bar", 0],
    ["dropout=1 bar", 1],
    ["dropout=1.5 bars,tempo=88,variant=plain", 4],
  ])("finds the one rung with %s", (text, index) => {
    const result = findRung(drill, text);
    expect(result.ok && result.value.index).toBe(index);
  });

  test("agrees with trying every rung, however much is left out", () => {
    const parameters = ["dropout", "tempo", "variant"] as const;
    for (const rung of Array.from({ length: all.count }, (_, i) => all.at(i))) {
      for (let kept = 0; kept < 8; kept++) {
        const said = parameters.filter((_, i) => (kept >> i) & 1);
        const text = said.map((parameter) => `${parameter}=${rung.settings[parameter]}`).join(",");
        const same = Array.from({ length: all.count }, (_, i) => all.at(i).settings).filter((settings) =>
          said.every((parameter) => settings[parameter] === rung.settings[parameter]),
        );
        const result = findRung(drill, text);
        expect(result.ok ? "" : result.problems[0]!.code).toBe(same.length === 1 ? "" : "RUNG_AMBIGUOUS");
      }
    }
  });

  test.each([
    ["99", "RUNG_NUMBER_OUT_OF_RANGE", /has 34 rungs, counted from 1; found 99/],
    ["0", "RUNG_NUMBER_OUT_OF_RANGE", /has 34 rungs, counted from 1; found 0/],
    [
      "tempo=96",
      "RUNG_AMBIGUOUS",
      /leaves open dropout \(1\/2 bar, 1 bar, 1 1\/2 bars, 2 bars\), variant \(plain, busy\)/,
    ],
    ["tempo=97", "RUNG_NOT_FOUND", /ladder of tempo has 84, 88, 92, 96, 100, 104, 108, 112; found 97/],
    ["dropout=1/2 bar,tempo=88", "RUNG_NOT_FOUND", /never together, because of where the ladders restart/],
    ["variant=bussy", "RUNG_NOT_FOUND", /ladder of variant has plain, busy; found bussy/],
    ["key=D dorian", "SETTING_UNKNOWN", /settings dropout, tempo, variant; found key/],
    ["tempoo=96", "SETTING_UNKNOWN", /settings are/],
    ["tempo", "SETTING_NOT_READ", /name=value/],
    ["tempo=96,tempo=96", "SETTING_TWICE", /tempo is there twice/],
    ["dropout=half a bar", "SPAN_NOT_READ", /./],
  ])("says why %s names no rung: %s", (text, code, message) => {
    const problem = problemOf(text);
    expect(problem[0]).toBe(code);
    expect(problem[1]).toMatch(message);
  });

  test("says what to write instead", () => {
    expect(problemOf("variant=bussy")[2]).toBe("write variant=busy");
    expect(problemOf("tempo=96")[2]).toBe("say also dropout=1/2 bar,variant=plain");
  });

  test("takes a fixed setting that is right, and refuses one that is wrong", () => {
    const fixed = drillOf(jetty());
    expect(findRung(fixed, "tempo=92,dropout=2 beats").ok).toBe(true);
    const wrong = findRung(fixed, "tempo=93");
    expect(!wrong.ok && wrong.problems[0]!.message).toMatch(/tempo is always 92/);
  });

  test("reads digits alone as a number, with blanks around them, and digits beside other text as settings", () => {
    const numbered = findRung(drill, "  7 ");
    expect(numbered.ok && numbered.value.index).toBe(6);
    for (const text of ["7 tempo", "tempo 7", "7,", "7 7"]) expect(problemOf(text)[0]).toBe("SETTING_NOT_READ");
  });

  test("names the last and no later number, and quotes no more than 40 signs of what was found", () => {
    const result = findRung(drill, "34");
    expect(result.ok && result.value.index).toBe(33);
    expect(problemOf("35")[2]).toBe(
      "write a number from 1 to 34, or settings such as dropout=1/2 bar,tempo=84,variant=plain",
    );
    expect(problemOf("9".repeat(41))[1]).toMatch(/found 9{40}$/);
    const single = findRung(drillOf(jetty()), "2");
    expect(!single.ok && single.problems.map(({ message, remedy }) => [message, remedy])).toEqual([
      ["drill drill has one rung, number 1; found 2", "write 1"],
    ]);
  });

  test("finds the only rung of a drill without ladders by no setting at all", () => {
    const result = findRung(drillOf(jetty()), "");
    expect(result.ok && result.value.index).toBe(0);
  });

  test("asks for no ladder that has one value", () => {
    const narrow = drillOf(
      jetty({
        tempo: undefined,
        variant: undefined,
        ladders: [{ tempo: { from: 84, to: 92, by: 4 } }, { variant: ["plain"] }],
      }),
    );
    const result = findRung(narrow, "");
    expect(!result.ok && result.problems.map(({ message, remedy }) => [message, remedy])).toEqual([
      ["one rung is wanted, but no setting leaves open tempo (84, 88, 92)", "say also tempo=84"],
    ]);
  });

  test("lists all values of a ladder of eight, and of a longer one the first six, the last and their number", () => {
    const climbing = (to: number) =>
      drillOf(jetty({ tempo: undefined, ladders: [{ tempo: { from: 80, to, by: 1 } }] }));
    const said = (to: number, text: string) => {
      const result = findRung(climbing(to), text);
      return !result.ok && result.problems[0]!.message;
    };
    expect(said(87, "")).toBe("one rung is wanted, but no setting leaves open tempo (80, 81, 82, 83, 84, 85, 86, 87)");
    expect(said(88, "")).toBe(
      "one rung is wanted, but no setting leaves open tempo (80, 81, 82, 83, 84, 85, ... 88, 9 values)",
    );
    expect(said(87, "tempo=70")).toBe("the ladder of tempo has 80, 81, 82, 83, 84, 85, 86, 87; found 70");
    expect(said(88, "tempo=70")).toBe("the ladder of tempo has 80, 81, 82, 83, 84, 85, ... 88, 9 values; found 70");
  });

  test("says every setting that is wrong at once, and what is right of a fixed one", () => {
    const fixed = drillOf(jetty({ tempo: undefined, ladders: [{ tempo: { from: 84, to: 92, by: 4 } }] }));
    const result = findRung(fixed, "tempo=97,variant=busy,key=D dorian");
    expect(!result.ok && result.problems.map(({ code, message, remedy }) => [code, message, remedy])).toEqual([
      ["RUNG_NOT_FOUND", "the ladder of tempo has 84, 88, 92; found 97", undefined],
      ["RUNG_NOT_FOUND", "variant is always plain in drill drill; found busy", "write variant=plain, or leave it out"],
      ["SETTING_UNKNOWN", "drill drill has the settings dropout, tempo, variant; found key", "leave key out"],
    ]);
  });

  test("takes a length written in another unit, and no other length, where a length is fixed", () => {
    const fixed = drillOf(jetty());
    for (const text of ["dropout=1/2 bar", "dropout=2 beats", "dropout=1/2 note"])
      expect(findRung(fixed, text).ok).toBe(true);
    for (const text of ["dropout=1 bar", "dropout=1 beat"]) expect(findRung(fixed, text).ok).toBe(false);
  });

  test("agrees with trying every rung, whatever the ladders and their restarts", () => {
    const tempi = ["80", "84", "88"];
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 3 }),
        fc.integer({ min: 0, max: 2 }),
        fc.integer({ min: 0, max: 2 }),
        fc.subarray(["tempo", "dropout", "variant"] as const),
        fc.nat(17),
        (count, back, further, said, pick) => {
          const lengths = ["1/2 bar", "1 bar", "1 1/2 bars"];
          const free = drillOf(
            jetty({
              tempo: undefined,
              variant: undefined,
              dropout: {},
              ladders: [
                { tempo: tempi.slice(0, count).map(Number), restart: `${Math.min(back, count - 1)} rungs back` },
                { dropout: lengths, restart: `${further} rungs back` },
                { variant: ["plain", "busy"] },
              ],
            }),
          );
          const every = Array.from({ length: rungs(free).count }, (_, i) => rungs(free).at(i));
          const wanted: Record<string, string> = {
            tempo: tempi[pick % count]!,
            dropout: lengths[Math.floor(pick / 3) % 3]!,
            variant: pick % 2 === 0 ? "plain" : "busy",
          };
          const same = every.filter(({ settings }) => said.every((name) => settings[name] === wanted[name]));
          const result = findRung(free, said.map((name) => `${name}=${wanted[name]}`).join(","));
          const answer = result.ok ? result.value.index : result.problems[0]!.code;
          const [only] = same;
          expect(answer).toBe(same.length === 0 ? "RUNG_NOT_FOUND" : same.length > 1 ? "RUNG_AMBIGUOUS" : only!.index);
        },
      ),
    );
  });
});

describe("findRung() in a drill whose silences grow inside a take", () => {
  const growing = drillOf(
    jetty({
      tempo: undefined,
      variant: undefined,
      phrases: 8,
      dropout: { grows: { from: "1/2 bar", by: "1/2 bar", each: "2 phrases" } },
      ladders: [{ grows: ["1 bar", "1 1/2 bars", "2 bars"] }, { variant: ["plain", "busy"] }, { tempo: [84, 92] }],
    }),
  );
  const found = (text: string): string => {
    const result = findRung(growing, text);
    return result.ok ? settingsText(result.value.settings) : result.problems.map(({ code }) => code).join();
  };

  test.each(["grows=2 bars,busy,84", "dropout=1/2 bar to 2 bars,busy,tempo=84", "grows = 8 beats , variant=busy, 84"])(
    "%s is the rung with these settings",
    (text) =>
      expect(found(text)).toMatch(/^dropout=1\/2 bar to 2 bars by 1\/2 bar each 2 phrases,.*tempo=84,variant=busy$/),
  );
  test("what is on no ladder is named, and a word that is no setting is told at its place", () => {
    expect(found("grows=3 bars")).toBe("RUNG_NOT_FOUND");
    expect(found("grows=some")).toBe("SPAN_NOT_READ");
    const result = findRung(growing, "grows=2 bars,bussy");
    expect(result).toMatchObject({ ok: false, problems: [{ code: "SETTING_NOT_READ", where: { offset: 13 } }] });
  });
});
