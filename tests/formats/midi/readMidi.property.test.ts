import * as fc from "fast-check";
import midi, { type MidiEvent } from "midi-file";
import { describe, expect, test } from "vitest";
import { problemsIn } from "../../../lib/base/index.js";
import { readMidiFile } from "../../../lib/formats/index.js";
import { readVariableLength, variableLength } from "../../../lib/formats/midi/variableLength.js";
import { must } from "../../time/shorthand.js";
import { file, off, on, quantity } from "./midiBytes.js";

describe("variable-length quantities", () => {
  test("are written as their definition says, and read back", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 0x0fffffff }), (value) => {
        const written = Uint8Array.from(quantity(value));
        expect(variableLength(value)).toEqual(quantity(value));
        expect(readVariableLength(written, 0, written.length)).toEqual({ value, next: written.length });
      }),
    );
  });
});

describe("readMidiFile()", () => {
  const notes = fc.array(
    fc.tuple(
      fc.nat(2000),
      fc.integer({ min: 0, max: 127 }),
      fc.integer({ min: 1, max: 127 }),
      fc.integer({ min: 1, max: 500 }),
    ),
    {
      maxLength: 40,
    },
  );

  test("finds each note that the library's own writer wrote", () => {
    fc.assert(
      fc.property(notes, (list) => {
        let now = 0;
        const wanted = list.map(([gap, key, velocity, length]) => {
          const start = now + gap;
          now = start + length;
          return { key, velocity, ticks: start, endTicks: now };
        });
        const events: MidiEvent[] = list.flatMap(([gap, noteNumber, velocity, length]) => [
          { type: "noteOn" as const, deltaTime: gap, channel: 0, noteNumber, velocity },
          { type: "noteOff" as const, deltaTime: length, channel: 0, noteNumber, velocity: 0 },
        ]);
        const track: MidiEvent[] = [...events, { type: "endOfTrack", deltaTime: 0, meta: true }];
        const written = midi.writeMidi({ header: { format: 0, numTracks: 1, ticksPerBeat: 480 }, tracks: [track] });
        const result = readMidiFile(Uint8Array.from(written));
        expect(problemsIn(result)).toEqual([]);
        expect(
          must(result).tracks[0]!.notes.map(({ key, velocity, ticks, endTicks }) => ({
            key,
            velocity,
            ticks,
            endTicks,
          })),
        ).toEqual(wanted);
      }),
    );
  });

  const good = file([...on(0, 60), ...off(480, 60), ...on(0, 62), ...off(480, 62)], [...on(0, 40), ...off(960, 40)]);

  test("gives a value or a problem for every file with bytes changed, never an exception", () => {
    const changes = fc.array(fc.tuple(fc.nat(good.length - 1), fc.nat(255)), { minLength: 1, maxLength: 6 });
    fc.assert(
      fc.property(changes, (list) => {
        const changed = Uint8Array.from(good);
        for (const [at, value] of list) changed[at] = value;
        const result = readMidiFile(changed);
        expect(result.ok || result.problems.length > 0).toBe(true);
        if (result.ok)
          for (const track of result.value.tracks)
            for (const note of track.notes) expect(note.endTicks).toBeGreaterThanOrEqual(note.ticks);
      }),
      { numRuns: 500 },
    );
  });

  test("refuses every file cut short inside a chunk", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: good.length - 1 }), (length) => {
        const result = readMidiFile(good.slice(0, length));
        expect(result.ok).toBe(false);
      }),
    );
  });
});
