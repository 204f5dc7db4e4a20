import { describe, expect, test } from "vitest";
import { compareEditions } from "../../../lib/curriculum/index.js";
import { courseFrom, courseText, HOLD } from "../courses.js";
import { change, edition } from "./writing.js";

describe("alterations", () => {
  const ladders = ["tempo: { from: 60, to: 90, by: 10 }"];
  const before = courseFrom(courseText({ drills: HOLD }));
  const found = (from: string | RegExp, to: string): unknown => {
    const text = courseText({ drills: HOLD });
    const changed = text.replace(from, to);
    expect(changed).not.toBe(text);
    const [hold] = compareEditions(before, courseFrom(changed)).drills;
    expect(hold).toMatchObject({ kept: 1, losses: [], fresh: 0 });
    return hold!.alterations;
  };

  test("are none when only the number of the edition is another", () => {
    const { drills, isChanged } = compareEditions(before, { ...before, edition: "1.0.1" });
    expect({ altered: drills.flatMap(({ alterations }) => alterations), isChanged }).toEqual({
      altered: [],
      isChanged: false,
    });
  });
  test("are what is asked: tolerance, gate, going back", () => {
    expect(found("steadiness: 40 ms", "steadiness: 30 ms")).toEqual([
      { effect: "asked", aspect: "tolerance", was: { steadiness: 40 }, is: { steadiness: 30 } },
    ]);
    expect(found("    variant: plain\n", "    variant: plain\n    gate: { clean: 2, of: 3 }\n")).toMatchObject([
      { effect: "asked", aspect: "gate", is: { clean: 2, of: 3 } },
    ]);
    expect(found("    variant: plain\n", "    variant: plain\n    go-back: { after: 2 }\n")).toMatchObject([
      { effect: "asked", aspect: "goBack", is: { after: 2, by: 1 } },
    ]);
  });
  test("are what is heard: the very bars in which a line has other notes, the meter, the key, the parts, the mixes", () => {
    expect(
      found(
        "plain: { notes: 1/4 D4 E4 F4 G4 | ... }",
        "plain: { notes: 1/4 D4 E4 F4 G4 | same | D4 E4 F4 A4 | D4 E4 F4 G4 }",
      ),
    ).toEqual([{ effect: "heard", aspect: "notes", part: "lead", variant: "plain", bars: [3] }]);
    expect(found("bass: { notes: 1/1 D2 | G2 | D2 | A2 }", "bass: { notes: 1/1 D2 | G2 | D2 | C3 }")).toEqual([
      { effect: "heard", aspect: "notes", part: "bass", bars: [4] },
    ]);
    expect(found("key: D dorian", "key: D minor")).toMatchObject([{ effect: "heard", aspect: "key" }]);
    expect(found("    key: D dorian\n", '    key: D dorian\n    swing: "2:1 1/8 note"\n')).toMatchObject([
      { effect: "heard", aspect: "swing" },
    ]);
    expect(found("      kit:", "      drum: { voices: { hat: xxxx | ... } }\n      kit:")).toMatchObject([
      { effect: "heard", aspect: "parts", was: ["bass", "kit", "lead"], is: ["bass", "drum", "kit", "lead"] },
    ]);
    expect(found("    variant: plain\n", "    variant: plain\n    mixes: { solo: { kit: off } }\n")).toMatchObject([
      { effect: "heard", aspect: "mixes" },
    ]);
  });
  test("are what is told: titles, chord symbols, the order of rungs", () => {
    expect(found("    key: D dorian\n", "    key: D dorian\n    chords: Dm7 | G7 | Dm7 | A7\n")).toMatchObject([
      { effect: "told", aspect: "chords" },
    ]);
    const down = ["tempo: { from: 90, to: 60, by: -10 }"];
    expect(change({ ladders }, { ladders: down })).toMatchObject({
      kept: 4,
      fresh: 0,
      alterations: [{ effect: "told", aspect: "ladders" }],
    });
  });
  test("are not needs that only have another name", () => {
    const needs = (name: string): string => `    needs: [${name}]\n`;
    const old = edition({ ladders, extra: needs("hold") });
    const renamed = courseText({ drills: "" }).concat(
      HOLD.replace("hold:", "keep:").concat("    formerly: hold\n"),
      `  fall:\n    pattern: riff\n    student: lead\n    dropout: { parts: [kit, bass], length: 1 bar }\n    variant: plain\n`,
      `    tolerance: { drift: 30 % }\n    ladders: [{ ${ladders[0]} }]\n${needs("keep")}`,
    );
    expect(compareEditions(old, courseFrom(renamed)).drills).toMatchObject([
      { drill: "hold", now: "keep", alterations: [] },
      { drill: "fall", now: "fall", alterations: [] },
    ]);
  });
});
