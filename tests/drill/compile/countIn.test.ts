import { describe, expect, test } from "vitest";
import { fractionText } from "../../../lib/base/index.js";
import { rungs, scoreOf } from "../../../lib/drill/index.js";
import { drillOf, found, jetty } from "../material.js";

describe("a count-in", () => {
  test.each([
    ["2 bars", "2", undefined],
    ["7 beats", "7/4", undefined],
    ["none", "0", undefined],
    [{ length: "2 bars", sound: "sticks" }, "2", "sticks"],
    [{ sound: "hat" }, "1", "hat"],
    [{ length: "1/2 bar", sound: "click" }, "1/2", undefined],
  ] as const)("%j has its length, and its voice unless it is the usual click", (written, length, voice) => {
    const drill = drillOf(jetty({ "count-in": written }));
    expect(fractionText(drill.countIn)).toBe(length);
    expect(drill.countInVoice).toBe(voice);
    expect(scoreOf(rungs(drill).at(0)).countInVoice).toBe(voice);
  });

  test("its problems are at its length and at its sound, both at once", () => {
    const problems = found(jetty({ "count-in": { length: "2 barr", sound: "stick" } }));
    expect(problems).toContain("VOICE_UNKNOWN /count-in/sound");
    expect(problems.filter((each) => each.endsWith(" /count-in/length"))).toHaveLength(1);
  });
});
