import { expect, test } from "vitest";
import { rungs, scoreOf } from "../../lib/drill/index.js";
import { INSTRUMENTS, midiNumber, parsePitch, writtenPitch } from "../../lib/pattern/index.js";
import { fittingOctave } from "../../lib/render/index.js";
import { drillOf, jetty } from "../drill/material.js";
import { must } from "../time/shorthand.js";

test("a part is moved by an octave in which an instrument reaches it in every key, not in that of the pattern alone", () => {
  const drill = drillOf(jetty({ ladders: [{ key: ["D dorian", "A dorian", "G dorian"] }] }));
  const sounding = Array.from({ length: rungs(drill).count }, (_, i) => scoreOf(rungs(drill).at(i), "play").expected)
    .flat()
    .map(({ pitch }) => must(parsePitch(pitch!)));
  let moved = 0;
  for (const [name, instrument] of Object.entries(INSTRUMENTS)) {
    const found = fittingOctave(drill, instrument);
    const reaches = (octave: number): boolean =>
      sounding
        .map((pitch) => midiNumber(writtenPitch(pitch, instrument, octave)))
        .every((number) => number >= midiNumber(instrument.lowest) && number <= midiNumber(instrument.highest!));
    const reached = [0, -1, 1, -2, 2, -3, 3, -4, 4].find(reaches);
    if (reached !== undefined) expect(must(found), name).toBe(reached);
    if (found.ok && found.value !== 0) moved += 1;
  }
  expect(moved).toBeGreaterThan(20);
  // In the key of the pattern a flute has it where it is: from D4 on. In A dorian it begins on A3.
  expect(must(fittingOctave(drill, INSTRUMENTS.flute!))).toBe(1);
});
