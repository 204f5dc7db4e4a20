import { describe, expect, test } from "vitest";
import { soundFormatOf } from "../../../lib/listen/index.js";
import { clicks, hear, inPieces, wavBytes } from "./soundFiles.js";

const ascii = (text: string): Uint8Array => new Uint8Array(Buffer.from(text, "latin1"));
const wav = wavBytes({ samples: [clicks()] });

describe("decodeSound()", () => {
  test("RECORDING_EMPTY: refuses no bytes", async () => {
    expect((await hear(new Uint8Array(0))).codes).toEqual(["RECORDING_EMPTY"]);
    expect((await hear(inPieces(new Uint8Array(0), 1))).codes).toEqual(["RECORDING_EMPTY"]);
  });

  test("RECORDING_FORMAT_UNKNOWN: refuses what is no sound file", async () => {
    for (const text of ["h", "hello", "MThd\0\0\0\x06", "RIFF\0\0\0\0AVI ", "x".repeat(9999)])
      expect((await hear(ascii(text), "x.wav")).codes).toEqual(["RECORDING_FORMAT_UNKNOWN"]);
  });

  test("RECORDING_READ_FAILED: ends where its source breaks off, with the system's code and no more", async () => {
    async function* failing(after: number): AsyncGenerator<Uint8Array> {
      if (after > 0) yield wav.subarray(0, after);
      throw Object.assign(new Error("secret insides"), { code: "EIO" });
    }
    const heard = await hear(failing(40_000));
    expect(heard.codes).toContain("RECORDING_READ_FAILED");
    expect(heard.channels[0]!.length).toBe((40_000 - 44) / 2);
    expect(JSON.stringify(heard.problems)).toContain("EIO");
    expect(JSON.stringify(heard.problems)).not.toContain("secret");
    expect((await hear(failing(0))).codes).toEqual(["RECORDING_READ_FAILED"]);
  });

  test("closes its source when nobody listens to the end", async () => {
    let closed = false;
    async function* source(): AsyncGenerator<Uint8Array> {
      try {
        for (;;) yield wav;
      } finally {
        closed = true;
      }
    }
    const { decodeSound } = await import("../../../lib/listen/index.js");
    const opened = await decodeSound(source());
    if (opened.ok) for await (const _ of opened.value.sound) break;
    expect(closed).toBe(true);
  });

  test("RECORDING_TOO_LONG: listens to a sound without end for four hours", async () => {
    async function* endless(): AsyncGenerator<Uint8Array> {
      yield wavBytes({ samples: [[]], rate: 8000, coding: "u8", lies: { size: 0xffffffff } });
      const piece = new Uint8Array(1_000_000).map((_, i) => (i % 2 === 0 ? 88 : 168));
      for (;;) yield piece;
    }
    const { decodeSound } = await import("../../../lib/listen/index.js");
    const opened = await decodeSound(endless());
    let count = 0;
    if (opened.ok) {
      for await (const { channels } of opened.value.sound) count += channels[0]!.length;
      expect(opened.value.problems().map(({ code }) => code)).toEqual(["RECORDING_TOO_LONG"]);
    }
    expect(count).toBeGreaterThan(8000 * 3600 * 4 - 100_000);
    expect(count).toBeLessThanOrEqual(8000 * 3600 * 4);
  });

  test("tells kinds of sound file apart by their first bytes", () => {
    const kinds: Readonly<Record<string, Uint8Array>> = {
      WAV: wav,
      FLAC: ascii("fLaC\0\0\0\x22"),
      "Ogg Vorbis": ascii(`OggS${"\0".repeat(24)}\x01vorbis`),
      "Ogg Opus": ascii(`OggS${"\0".repeat(24)}OpusHead`),
      Ogg: ascii(`OggS${"\0".repeat(24)}Speex   `),
      M4A: ascii("\0\0\0\x20ftypM4A "),
      WebM: ascii("\x1a\x45\xdf\xa3"),
      AIFF: ascii("FORM\0\0\0\0AIFF"),
      CAF: ascii("caff\0\x01"),
      AMR: ascii("#!AMR\n"),
      AAC: ascii("\xff\xf1\x50\x80"),
      MP3: ascii("\xff\xfb\x90\x64"),
    };
    for (const [format, bytes] of Object.entries(kinds)) expect(soundFormatOf(bytes)).toBe(format);
    expect(soundFormatOf(ascii("\xff\xff\xff\xff"))).toBe(undefined);
    expect(soundFormatOf(new Uint8Array(0))).toBe(undefined);
  });
});
