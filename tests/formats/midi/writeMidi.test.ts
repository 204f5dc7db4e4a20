import { describe, expect, test } from "vitest";
import { keySignature, marker, noteOn, setTempo, timeSignature, writeMidi } from "../../../lib/formats/midi/index.js";
import { variableLength } from "../../../lib/formats/midi/variableLength.js";

const hex = (bytes: readonly number[] | Uint8Array): string =>
  [...bytes].map((byte) => byte.toString(16).padStart(2, "0").toUpperCase()).join(" ");

describe("bytes of a Standard MIDI File", () => {
  // Standard MIDI Files 1.0 (RP-001), table of variable-length quantities: from memory; 2000 and the largest also as printed elsewhere.
  test.each([
    [0x00, "00"],
    [0x40, "40"],
    [0x7f, "7F"],
    [0x80, "81 00"],
    [0x2000, "C0 00"],
    [0x3fff, "FF 7F"],
    [0x4000, "81 80 00"],
    [0x100000, "C0 80 00"],
    [0x1fffff, "FF FF 7F"],
    [0x200000, "81 80 80 00"],
    [0x8000000, "C0 80 80 00"],
    [0x0fffffff, "FF FF FF 7F"],
    // Computed from the definition.
    [1000, "87 68"],
    [1_000_000, "BD 84 40"],
  ])("%d is written as %s", (value, bytes) => expect(hex(variableLength(value))).toBe(bytes));

  test("the header is MThd, six bytes, format 1, the tracks and the division, high byte first", () => {
    const bytes = writeMidi(480, [{ messages: [], endTicks: 0 }]);
    expect(hex(bytes.subarray(0, 14))).toBe("4D 54 68 64 00 00 00 06 00 01 00 01 01 E0");
    expect(hex(bytes.subarray(14))).toBe("4D 54 72 6B 00 00 00 04 00 FF 2F 00");
  });

  // 120 and 4/4 as printed in the specification; 100 and 92 computed.
  test("tempo, time signature and key signature are the bytes the standard prints", () => {
    expect(hex(setTempo(500_000))).toBe("FF 51 03 07 A1 20");
    expect(hex(setTempo(600_000))).toBe("FF 51 03 09 27 C0");
    expect(hex(setTempo(652_174))).toBe("FF 51 03 09 F3 8E");
    expect(hex(timeSignature(4, 4, 24))).toBe("FF 58 04 04 02 18 08");
    expect(hex(keySignature(-3, "minor"))).toBe("FF 59 02 FD 01");
  });

  test("a text is UTF-8", () => expect(hex(marker("♪"))).toBe("FF 06 03 E2 99 AA"));

  test("numbers that do not fit are a programmer's error, not a broken file", () => {
    expect(() => noteOn(0, 160, 64)).toThrow(RangeError);
    expect(() => noteOn(0, 60, 200)).toThrow(RangeError);
    expect(() => noteOn(16, 60, 64)).toThrow(RangeError);
    expect(() => variableLength(2 ** 28)).toThrow(RangeError);
    expect(() => variableLength(0.5)).toThrow(RangeError);
    expect(() => writeMidi(0, [{ messages: [], endTicks: 0 }])).toThrow(RangeError);
    expect(() => writeMidi(480, [])).toThrow(RangeError);
    expect(() => writeMidi(480, [{ messages: [{ ticks: -1, bytes: [] }], endTicks: 0 }])).toThrow(RangeError);
  });
});
