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
});
