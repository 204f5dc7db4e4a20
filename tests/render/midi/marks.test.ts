import midiFile from "midi-file";
import { describe, expect, test } from "vitest";
import { readMidiFile } from "../../../lib/formats/index.js";
import { midiOf } from "../../../lib/render/index.js";
import { must } from "../../time/shorthand.js";
import { scoreOfLine } from "../markedScore.js";

/** The lead's events as the library midi-file reads them: "480 on D4's key", bends by their value. */
function leadOf(notes: string): readonly string[] {
  const tracks = midiFile.parseMidi(must(midiOf(scoreOfLine(notes)))).tracks;
  let ticks = 0;
  return tracks.at(-1)!.flatMap((event) => {
    ticks += event.deltaTime;
    if (event.type === "noteOn") return [`${ticks} on ${event.noteNumber}`];
    if (event.type === "noteOff") return [`${ticks} off ${event.noteNumber}`];
    return event.type === "pitchBend" ? [`${ticks} bend ${event.value}`] : [];
  });
}

describe("marks in a MIDI file", () => {
  test("short notes last half, held and slurred ones up to the next", () => {
    expect(leadOf("1/4 D4. E4_ F4~ G4").slice(0, 8)).toEqual([
      ...["0 on 62", "240 off 62", "480 on 64", "960 off 64", "960 on 65", "1440 off 65", "1440 on 67", "1920 off 67"],
    ]);
  });

  test("a scoop bends up to its pitch within its first quarter, a fall down over its second half, and nothing stays bent", () => {
    const events = leadOf("1/4 D4-scoop E4 F4-fall -");
    const bends = events.flatMap((each) => {
      const [, at, value] = /^(\d+) bend (-?\d+)$/.exec(each) ?? [];
      return at === undefined ? [] : [[Number(at), Number(value)] as const];
    });
    const [up, down] = [bends.filter(([at]) => at < 480), bends.filter(([at]) => at >= 480)];
    expect(up[0]).toEqual([0, -8192]);
    expect(up.at(-1)).toEqual([120, 0]);
    expect(down[0]).toEqual([1200, 0]);
    expect(down.at(-1)).toEqual([1440, 0]);
    expect(Math.min(...down.map(([, value]) => value))).toBeLessThan(-6000);
    // The bend is there before the note it is for sounds.
    expect(events.indexOf("0 bend -8192")).toBeLessThan(events.indexOf("0 on 62"));
  });

  test("without scoops and falls there is no bend", () => {
    expect(leadOf("1/4 D4! E4~ F4_ -").filter((each) => each.includes("bend"))).toEqual([]);
  });

  test("are no advice when the file is read", () => {
    expect(readMidiFile(must(midiOf(scoreOfLine("1/4 D4-scoop E4~ F4-fall -")))).ok).toBe(true);
  });
});
