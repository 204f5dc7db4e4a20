import fc from "fast-check";
import midiFile from "midi-file";
import { describe, expect, test } from "vitest";
import { add, compare, fractionText } from "../../../lib/base/index.js";
import { rungs, scoreOf } from "../../../lib/drill/index.js";
import { readMidiFile } from "../../../lib/formats/index.js";
import { midiNumber, PERCUSSION, parsePitch } from "../../../lib/pattern/index.js";
import { midiOf, tickMap } from "../../../lib/render/index.js";
import { exactly } from "../../../lib/render/scoreTime.js";
import type { DrillDocument, Score, ScoreNote } from "../../../lib/schema/index.js";
import { drillOf, jetty } from "../../drill/material.js";
import { must } from "../../time/shorthand.js";
import { drills } from "../courses.js";

const documents: fc.Arbitrary<DrillDocument> = fc
  .record({
    at: fc.oneof(fc.constantFrom("end" as const, "start" as const), fc.constant([2, 4])),
    phrases: fc.integer({ min: 1, max: 4 }),
    tempo: fc.constantFrom(50, 84, 92.5, 133),
    outro: fc.constantFrom("none", "1 bar", "1/2 bar"),
    "count-in": fc.constantFrom("1 bar", "2 bars", "1 beat", "3 beats"),
    lead: fc.constantFrom("plays" as const, "drops" as const, "off" as const),
    bass: fc.constantFrom("plays" as const, "drops" as const, "off" as const),
    length: fc.constantFrom("1/4 bar", "1/2 bar", "1 1/2 bars", "3/16 note"),
    variant: fc.constantFrom("plain", "busy"),
  })
  .map(({ at, lead, bass, length, ...rest }) =>
    jetty({ ...rest, dropout: { at, length }, tolerance: {}, mixes: { play: { lead, bass } } }),
  );
/** Scores of random drills over the jetty riff, and of random rungs of the shipped courses in random mixes. */
const scores: fc.Arbitrary<Score> = fc.oneof(
  documents.map((document) => scoreOf(rungs(drillOf(document)).at(0))),
  fc.tuple(fc.constantFrom(...drills), fc.nat(), fc.nat()).map(([[, drill], rung, mix]) => {
    const all = rungs(drill);
    return scoreOf(all.at(rung % all.count), drill.mixes[mix % drill.mixes.length]!.name);
  }),
);

const keyOf = (note: ScoreNote): number =>
  note.pitch === undefined ? PERCUSSION.get(note.voice!)! : midiNumber(must(parsePitch(note.pitch)));

/** "tick key end" of each note of each track after the first two, paired by midi-file's events alone. */
function parsedNotes(bytes: Uint8Array): readonly (readonly string[])[] {
  return midiFile
    .parseMidi(bytes)
    .tracks.slice(2)
    .map((track) => {
      let now = 0;
      const open = new Map<number, number>();
      const notes: string[] = [];
      for (const event of track) {
        now += event.deltaTime;
        if (event.type === "noteOn") {
          expect(open.has(event.noteNumber), "a key is struck while it sounds").toBe(false);
          open.set(event.noteNumber, now);
        } else if (event.type === "noteOff") {
          notes.push(`${open.get(event.noteNumber)} ${event.noteNumber} ${now}`);
          open.delete(event.noteNumber);
        }
      }
      expect([...open.keys()], "notes that hang").toEqual([]);
      expect(track.at(-1)!.type).toBe("endOfTrack");
      return notes.sort();
    });
}

describe("midiOf() read back", () => {
  test("has every note of every part at its tick and no other, by midi-file", () => {
    fc.assert(
      fc.property(scores, (score) => {
        const ticks = tickMap(score);
        const expected = score.parts.map((part) =>
          part.notes
            .map((note) => {
              const from = exactly(note.position);
              return `${ticks.sounding(from)} ${keyOf(note)} ${ticks.sounding(add(from, exactly(note.length)))}`;
            })
            .sort(),
        );
        expect(parsedNotes(must(midiOf(score)))).toEqual(expected);
      }),
      { numRuns: 200 },
    );
  });

  test("is read by our own strict reader without advice, at the same times in seconds", () => {
    fc.assert(
      fc.property(scores, (score) => {
        const read = readMidiFile(must(midiOf(score)));
        expect(read).toMatchObject({ ok: true, advice: [] });
        const ticks = tickMap(score);
        const before = -ticks.seconds(0);
        // The tempo is rounded to half a microsecond in a quarter note.
        const rounding = (0.5e-6 * (ticks.tempi[0]!.quarters * (before + score.duration))) / 60 + 2e-9;
        for (const [i, part] of score.parts.entries()) {
          const found = must(read).tracks[i + 2]!.notes.map(({ seconds }) => seconds - before);
          const expected = part.notes.map(({ at }) => at).sort((a, b) => a - b);
          expect(found).toHaveLength(expected.length);
          for (const [k, at] of expected.entries()) expect(Math.abs(found[k]! - at)).toBeLessThanOrEqual(rounding);
        }
      }),
      { numRuns: 200 },
    );
  });

  test("sounds nothing of a part while it is out", () => {
    fc.assert(
      fc.property(scores, (score) => {
        const file = must(readMidiFile(must(midiOf(score))));
        const ticks = tickMap(score);
        for (const { fromPosition, toPosition, parts } of score.dropouts) {
          const [from, to] = [ticks.sounding(exactly(fromPosition!)), ticks.sounding(exactly(toPosition!))];
          for (const [i, part] of score.parts.entries()) {
            if (!parts.includes(part.name)) continue;
            const sounding = file.tracks[i + 2]!.notes.filter((note) => note.ticks < to && note.endTicks > from);
            expect(sounding, `${part.name} from ${fromPosition}`).toEqual([]);
          }
        }
      }),
      { numRuns: 200 },
    );
  });

  test("has bar 1 on a bar line, and every bar where the meter map puts it", () => {
    fc.assert(
      fc.property(scores, (score) => {
        const ticks = tickMap(score);
        const { meters } = must(readMidiFile(must(midiOf(score)))).tracks[0]!;
        const last = score.bars.findLast((bar) => compare(exactly(bar.position), exactly("0")) >= 0)!;
        const at = ticks.straight(exactly(last.position));
        const change = meters.findLast((meter) => meter.ticks <= at)!;
        const bar = (4 * ticks.perQuarter * change.meter.groups.reduce((a, b) => a + b)) / change.meter.lower;
        expect((at - change.ticks) % bar, `${fractionText(exactly(last.position))}`).toBe(0);
      }),
      { numRuns: 200 },
    );
  });
});
