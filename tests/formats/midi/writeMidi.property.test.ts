import * as fc from "fast-check";
import { expect, test } from "vitest";
import { problemsIn } from "../../../lib/base/index.js";
import {
  keySignature,
  noteOff,
  noteOn,
  readMidiFile,
  setTempo,
  type TimedMessage,
  timeSignature,
  trackName,
  writeMidi,
} from "../../../lib/formats/midi/index.js";
import { must } from "../../time/shorthand.js";

const ticks = fc.integer({ min: 0, max: 200_000 });
const tempi = fc.uniqueArray(fc.record({ ticks, microsecondsPerQuarter: fc.integer({ min: 1, max: 2 ** 24 - 1 }) }), {
  maxLength: 6,
  selector: (tempo) => tempo.ticks,
});
const meters = fc.uniqueArray(
  fc.record({ ticks, upper: fc.integer({ min: 1, max: 4 }), lower: fc.constantFrom(2, 4, 8, 16) }),
  { maxLength: 6, selector: (meter) => meter.ticks },
);
const keys = fc.uniqueArray(fc.record({ ticks, fifths: fc.integer({ min: -7, max: 7 }), minor: fc.boolean() }), {
  maxLength: 6,
  selector: (key) => key.ticks,
});
/** Notes of one channel and key do not overlap: MIDI cannot tell which of them a note off ends. */
const notes = fc
  .array(
    fc.record({
      channel: fc.nat(15),
      key: fc.nat(127),
      velocity: fc.integer({ min: 1, max: 127 }),
      gap: fc.nat(2000),
      length: fc.integer({ min: 1, max: 3000 }),
    }),
    { maxLength: 40 },
  )
  .map((list) => {
    const free = new Map<number, number>();
    return list.map(({ channel, key, velocity, gap, length }) => {
      const start = (free.get(channel * 128 + key) ?? 0) + gap;
      free.set(channel * 128 + key, start + length);
      return { channel, key, velocity, ticks: start, endTicks: start + length };
    });
  });
/** Blanks around a name are not read. */
const name = fc.string({ unit: "grapheme", maxLength: 20 }).map((text) => text.replaceAll("\ufeff", "").trim());
const track = fc.record({ name, notes });
const files = fc.record({
  perQuarter: fc.integer({ min: 1, max: 32_767 }),
  maps: fc.record({ tempi, meters, keys }),
  tracks: fc.array(track, { minLength: 1, maxLength: 4 }),
});

const byTicks = (a: { ticks: number }, b: { ticks: number }): number => a.ticks - b.ticks;
const byStart = (a: { ticks: number; key: number }, b: { ticks: number; key: number }): number =>
  a.ticks - b.ticks || a.key - b.key;
const withoutMaps = { tempi: [], meters: [], keys: [] };

test("readMidiFile() reads back what writeMidi() wrote: names, notes, tempi, meters, keys", () => {
  fc.assert(
    fc.property(files, ({ perQuarter, maps, tracks }) => {
      const bytes = writeMidi(
        perQuarter,
        tracks.map(({ name, notes }, i) => {
          const { tempi, meters, keys } = i === 0 ? maps : withoutMaps;
          const messages: readonly TimedMessage[] = [
            { ticks: 0, bytes: trackName(name) },
            ...tempi.map((tempo) => ({ ticks: tempo.ticks, bytes: setTempo(tempo.microsecondsPerQuarter) })),
            ...meters.map(({ ticks, upper, lower }) => ({ ticks, bytes: timeSignature(upper, lower, 24) })),
            ...keys.map(({ ticks, fifths, minor }) => ({
              ticks,
              bytes: keySignature(fifths, minor ? "minor" : "major"),
            })),
            ...notes.map(({ endTicks, channel, key }) => ({ ticks: endTicks, bytes: noteOff(channel, key) })),
            ...notes.map(({ ticks, channel, key, velocity }) => ({ ticks, bytes: noteOn(channel, key, velocity) })),
          ];
          return { messages, endTicks: 10 ** 6 };
        }),
      );
      const result = readMidiFile(bytes);
      expect(problemsIn(result)).toEqual([]);
      const read = must(result);
      expect(read.format).toBe(1);
      expect(read.division).toEqual({ kind: "quarter", ticks: perQuarter });
      expect(read.tracks.map(({ name, endTicks }) => ({ name, endTicks }))).toEqual(
        tracks.map(({ name }) => ({ name, endTicks: 10 ** 6 })),
      );
      for (const [i, { notes }] of tracks.entries()) {
        expect(
          read.tracks[i]!.notes.map(({ channel, key, velocity, ticks, endTicks }) => ({
            channel,
            key,
            velocity,
            ticks,
            endTicks,
          })).sort((a, b) => byStart(a, b) || a.channel - b.channel),
        ).toEqual([...notes].sort((a, b) => byStart(a, b) || a.channel - b.channel));
      }
      const [first] = read.tracks;
      // Without a tempo at tick 0 a quarter note lasts half a second.
      const stated = maps.tempi.some((tempo) => tempo.ticks === 0)
        ? maps.tempi
        : [{ ticks: 0, microsecondsPerQuarter: 500_000 }, ...maps.tempi];
      expect(first!.tempi.map(({ ticks, microsecondsPerQuarter }) => ({ ticks, microsecondsPerQuarter }))).toEqual(
        [...stated].sort(byTicks),
      );
      expect(
        first!.meters.map(({ ticks, meter }) => ({
          ticks,
          upper: meter.groups.reduce((sum, size) => sum + size, 0),
          lower: meter.lower,
        })),
      ).toEqual([...maps.meters].sort(byTicks));
      expect(first!.keys).toEqual([...maps.keys].sort(byTicks));
    }),
  );
});
