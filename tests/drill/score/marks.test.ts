import { describe, expect, test } from "vitest";
import { compileDrill, rungs, scoreOf } from "../../../lib/drill/index.js";
import { compiled } from "../../pattern/shorthand.js";
import { must } from "../../time/shorthand.js";

const lead = "1/4 D4~ F4_ A4-scoop G4-fall | 1/2 E4~ tie | 1/1 F4";
const pattern = compiled({
  meter: "4/4",
  bars: 3,
  parts: { kit: { voices: { hat: "x | ..." } }, lead: { notes: lead } },
});
const drill = must(
  compileDrill(
    "drill",
    {
      pattern: "riff",
      student: "lead",
      tempo: 60,
      phrases: 1,
      mixes: { play: {}, listen: { lead: "plays" } },
      tolerance: {},
    },
    { patterns: { riff: pattern }, instruments: {} },
  ),
);

describe("marks in a score", () => {
  test("stand at their notes, which sound for their whole length", () => {
    const notes = scoreOf(rungs(drill).at(0), "listen")
      .parts.find(({ student }) => student)!
      .notes.slice(0, 6);
    expect(notes.map(({ pitch, seconds, at, position, length, accent, ...marks }) => [pitch, seconds, marks])).toEqual([
      ["D4", 1, { slurred: true }],
      ["F4", 1, { tenuto: true }],
      ["A4", 1, { scoop: true }],
      ["G4", 1, { fall: true }],
      ["E4", 4, { slurred: true }],
      ["F4", 4, {}],
    ]);
  });

  test("take no onset away: a slurred note is expected where its new pitch begins, a tied one is not", () => {
    const { expected } = scoreOf(rungs(drill).at(0), "play");
    expect(expected.slice(0, 6).map(({ at, pitch }) => `${at} ${pitch}`)).toEqual([
      "0 D4",
      "1 F4",
      "2 A4",
      "3 G4",
      "4 E4",
      "8 F4",
    ]);
  });
});
