import { describe, expect, test } from "vitest";
import { compileDrill, rungs, scoreOf } from "../../../lib/drill/index.js";
import { compiled } from "../../pattern/shorthand.js";
import { must } from "../../time/shorthand.js";

describe("a short note", () => {
  test("keeps its place and its written length, and sounds half of it: quarters at 60, 1 s, for 0.5 s", () => {
    const riff = compiled({
      meter: "4/4",
      bars: 1,
      parts: { lead: { notes: "1/4 D4 D4. (D4) D4!." }, kit: { voices: { hat: "xgx-" } } },
    });
    const document = {
      pattern: "riff",
      student: "lead",
      tempo: 60,
      mixes: { listen: { lead: "plays" as const } },
      tolerance: { steadiness: "90 ms" },
    };
    const drill = must(compileDrill("short", document, { patterns: { riff }, instruments: {} }));
    const [lead, kit] = scoreOf(rungs(drill).at(0), "listen").parts;
    expect(lead!.notes.slice(0, 4).map(({ at, length, seconds }) => [at, length, seconds])).toEqual([
      ...[
        [0, "1/4", 1],
        [1, "1/4", 0.5],
      ],
      ...[
        [2, "1/4", 1],
        [3, "1/4", 0.5],
      ],
    ]);
    expect(kit!.notes.slice(0, 3).map(({ at, voice }) => [at, voice])).toEqual([
      [0, "hat"],
      [1, "hat"],
      [2, "hat"],
    ]);
  });
});
