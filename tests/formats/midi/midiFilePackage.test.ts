/** The reader against another one: the npm package midi-file, an oracle where it is right. */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import * as fc from "fast-check";
import midi from "midi-file";
import { describe, expect, test } from "vitest";
import { midiChunks } from "../../../lib/formats/midi/chunks.js";
import { readMidiFile } from "../../../lib/formats/midi/index.js";
import { readEvents } from "../../../lib/formats/midi/readEvents.js";
import { ascii, chunk, END, header, meta, off, on, quantity } from "./midiBytes.js";

const FOLDER = "../shared/reference/smf";
const present = existsSync(FOLDER);
if (!present) console.log(`skipped: the MIDI files of ${FOLDER} are not here`);

/** A line for each event that says something about the music: track, ticks, what. Texts are left as bytes. */
function byPackage(bytes: Uint8Array): readonly string[] {
  return midi.parseMidi(bytes).tracks.flatMap((track, number) => {
    let ticks = 0;
    return track.flatMap((event) => {
      ticks += event.deltaTime;
      const at = `${number} ${ticks} ${event.type}`;
      if (event.type === "noteOn") return [`${at} ${event.channel} ${event.noteNumber} ${event.velocity}`];
      if (event.type === "noteOff") return [`${at} ${event.channel} ${event.noteNumber}`];
      if (event.type === "setTempo") return [`${at} ${event.microsecondsPerBeat}`];
      if (event.type === "timeSignature") return [`${at} ${event.numerator} ${event.denominator}`];
      if (event.type === "keySignature") return [`${at} ${event.key} ${event.scale === 1}`];
      if (event.type === "trackName") return [at];
      return [];
    });
  });
}

function byOurs(bytes: Uint8Array): readonly string[] {
  return midiChunks(bytes).chunks!.tracks.flatMap((track, number) =>
    readEvents(bytes, track, 1e6).events.map((event) => {
      const at = `${number} ${event.ticks}`;
      if (event.kind === "noteOn") return `${at} noteOn ${event.channel} ${event.key} ${event.velocity}`;
      if (event.kind === "noteOff") return `${at} noteOff ${event.channel} ${event.key}`;
      if (event.kind === "tempo") return `${at} setTempo ${event.microsecondsPerQuarter}`;
      if (event.kind === "timeSignature") return `${at} timeSignature ${event.numerator} ${event.denominator}`;
      if (event.kind === "keySignature") return `${at} keySignature ${event.fifths} ${event.minor}`;
      return `${at} trackName`;
    }),
  );
}

/** Whether the package can read the file: it throws at chunks of other kinds and RIFF containers, and reads on after the end of a track. */
function isForPackage(bytes: Uint8Array): boolean {
  const result = readMidiFile(bytes);
  if (!result.ok || result.advice.some(({ code }) => code === "MIDI_DATA_AFTER_END" || code === "MIDI_TRAILING_BYTES"))
    return false;
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const id = (at: number): string => String.fromCharCode(...bytes.subarray(at, at + 4));
  let at = 0;
  for (; at < bytes.length; at += 8 + view.getUint32(at + 4)) if (id(at) !== (at === 0 ? "MThd" : "MTrk")) return false;
  return true;
}

describe.skipIf(!present)("MIDI files of others", () => {
  const names = present
    ? (readdirSync(FOLDER, { recursive: true }) as string[]).filter((name) => /\.(mid|kar)$/i.test(name))
    : [];
  test("hold the same events by readEvents() and by midi-file", () => {
    let compared = 0;
    for (const name of names) {
      const bytes = new Uint8Array(readFileSync(`${FOLDER}/${name}`));
      if (!isForPackage(bytes)) continue;
      compared++;
      // Compared as one text: a list of lines takes the test runner long.
      expect(byOurs(bytes).join("\n"), name).toBe(byPackage(bytes).join("\n"));
    }
    console.log(`midi-file reads ${compared} of ${names.length} files too, with the same events`);
    expect(compared).toBeGreaterThan(names.length / 2);
  });
});

describe("random files", () => {
  const delta = fc.integer({ min: 0, max: 2 ** 21 });
  const data = fc.nat(127);
  const event = fc.oneof(
    fc.tuple(delta, data, data, fc.nat(15)).map(([time, key, velocity, channel]) => on(time, key, velocity, channel)),
    fc.tuple(delta, data, fc.nat(15)).map(([time, key, channel]) => off(time, key, channel)),
    // Controller, pressure, pitch bend and program change.
    fc
      .tuple(delta, fc.constantFrom(0xa0, 0xb0, 0xe0), fc.nat(15), data, data)
      .map(([time, status, channel, one, two]) => [...quantity(time), status + channel, one, two]),
    fc
      .tuple(delta, fc.constantFrom(0xc0, 0xd0), fc.nat(15), data)
      .map(([time, status, channel, one]) => [...quantity(time), status + channel, one]),
    fc.tuple(delta, fc.integer({ min: 1, max: 2 ** 24 - 1 })).map(([time, value]) => {
      return meta(time, 0x51, value >> 16, (value >> 8) & 255, value & 255);
    }),
    // Up to 2^7: the package shifts in 32 bits.
    fc.tuple(delta, fc.nat(255), fc.nat(7)).map(([time, upper, power]) => meta(time, 0x58, upper, power, 24, 8)),
    fc.tuple(delta, fc.nat(255), fc.nat(7)).map(([time, upper, power]) => meta(time, 0x58, upper, power)),
    fc.tuple(delta, fc.nat(255), fc.nat(1)).map(([time, fifths, minor]) => meta(time, 0x59, fifths, minor)),
    fc
      .tuple(delta, fc.constantFrom(1, 2, 3, 4, 5, 6, 7, 0x7f, 0x60), fc.array(fc.nat(255), { maxLength: 200 }))
      .map(([time, kind, body]) => meta(time, kind, ...body)),
    fc
      .tuple(delta, fc.constantFrom(0xf0, 0xf7), fc.array(fc.nat(255), { maxLength: 200 }))
      .map(([time, status, body]) => [...quantity(time), status, ...quantity(body.length), ...body]),
  );
  /** Events of one status in running status, from the second on. */
  const running = fc
    .tuple(fc.nat(15), fc.array(fc.tuple(delta, data, data), { minLength: 1, maxLength: 6 }))
    .map(([channel, list]) =>
      list.flatMap(([time, key, velocity], i) => [
        ...quantity(time),
        ...(i === 0 ? [0x90 + channel] : []),
        key,
        velocity,
      ]),
    );
  const body = fc.array(fc.oneof({ weight: 3, arbitrary: event }, running), { maxLength: 20 }).map((all) => all.flat());

  test("hold the same events by readEvents() and by midi-file", () => {
    fc.assert(
      fc.property(fc.array(body, { minLength: 1, maxLength: 4 }), (bodies) => {
        const tracks = bodies.flatMap((events) => chunk("MTrk", [...events, ...END]));
        const bytes = Uint8Array.from([...header(1, bodies.length, 480), ...tracks]);
        expect(readMidiFile(bytes).ok).toBe(true);
        expect(byOurs(bytes)).toEqual(byPackage(bytes));
      }),
      { numRuns: 500 },
    );
  });
});

describe("what midi-file gets wrong, or refuses", () => {
  const track = (...events: number[]): Uint8Array =>
    Uint8Array.from([...header(0, 1, 480), ...chunk("MTrk", [...events, ...END])]);
  const codes = (bytes: Uint8Array): readonly string[] => {
    const result = readMidiFile(bytes);
    return (result.ok ? result.advice : result.problems).map(({ code }) => code);
  };

  test("a track that ends inside an event is an error; the package reads a note without velocity", () => {
    const cut = Uint8Array.from([...header(0, 1, 480), ...chunk("MTrk", [0, 0x90, 60])]);
    expect(codes(cut)).toEqual(["MIDI_EVENT_TRUNCATED"]);
    expect(midi.parseMidi(cut).tracks[0]).toMatchObject([{ noteNumber: 60, velocity: undefined }]);
  });

  test("a time of six bytes is an error; the package takes it", () => {
    const long = track(0x81, 0x80, 0x80, 0x80, 0x80, 0x00, 0x90, 60, 64);
    expect(codes(long)).toContain("MIDI_NUMBER_TOO_LONG");
    expect(() => midi.parseMidi(long)).not.toThrow();
  });

  test("a time signature over 2^32 names no meter; the package reads 1/1", () => {
    const strange = track(...meta(0, 0x58, 1, 32, 24, 8));
    expect(codes(strange)).toEqual(["MIDI_METER_NOT_READ"]);
    expect(midi.parseMidi(strange).tracks[0]![0]).toMatchObject({ numerator: 1, denominator: 1 });
  });

  test("a chunk of another kind is skipped; the package throws", () => {
    const alien = Uint8Array.from([...header(0, 1, 480), ...chunk("XFIH", ascii("x")), ...chunk("MTrk", END)]);
    expect(codes(alien)).toEqual([]);
    expect(() => midi.parseMidi(alien)).toThrow();
  });
});
