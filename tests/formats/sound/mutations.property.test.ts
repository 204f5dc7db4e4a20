import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, test, vi } from "vitest";
import { recordingCodes } from "../../../lib/listen/index.js";
import { encodeFlac } from "../../../lib/render/sound/index.js";
import { clicks, clicksAs, hasFfmpeg, hear, soundOf, wavBytes } from "./soundFiles.js";

const folder = mkdtempSync(join(tmpdir(), "leeway-mutations-"));
const short = clicks(12_000);
/** Small good files by the name of their kind. */
const files = new Map<string, Uint8Array>();

beforeAll(async () => {
  // One decoder writes of its troubles to the console.
  vi.spyOn(console, "error").mockImplementation(() => undefined);
  files.set("WAV", wavBytes({ samples: [short], coding: "f32", extensible: true, long: true }));
  files.set("FLAC", await encodeFlac(soundOf([short, short]), { samples: 16 }));
  if (!hasFfmpeg) return;
  files.set("MP3", clicksAs(folder, "a.mp3", ["-c:a", "libmp3lame", "-b:a", "64k"]).bytes);
  files.set("Ogg", clicksAs(folder, "a.ogg", ["-c:a", "libvorbis", "-q:a", "1"]).bytes);
});
afterAll(() => {
  vi.restoreAllMocks();
  rmSync(folder, { force: true, recursive: true });
});

/** Broken files of each kind; milliseconds for them; and how many must have been heard when the time is up (our choice: fewer show nothing). */
const FILES = 150;
const LONG = 20_000;
const FEWEST = 30;

type Mutation = (bytes: Uint8Array) => Uint8Array;

const place = fc.double({ min: 0, max: 1, noNaN: true, maxExcluded: true });
/** Most harm is done in headers. */
const where = fc.oneof(place, fc.double({ min: 0, max: 0.01, noNaN: true }));
const mutation: fc.Arbitrary<Mutation> = fc.oneof(
  fc.tuple(where, fc.uint8Array({ minLength: 1, maxLength: 8 })).map(
    ([at, put]): Mutation =>
      (bytes) => {
        const changed = bytes.slice();
        const from = Math.floor(at * changed.length);
        changed.set(put.subarray(0, changed.length - from), from);
        return changed;
      },
  ),
  place.map(
    (at): Mutation =>
      (bytes) =>
        bytes.slice(0, Math.floor(at * bytes.length)),
  ),
  fc.tuple(where, fc.integer({ min: 1, max: 2000 })).map(
    ([at, count]): Mutation =>
      (bytes) => {
        const from = Math.floor(at * bytes.length);
        return new Uint8Array([...bytes.subarray(0, from), ...bytes.subarray(from + count)]);
      },
  ),
  fc.tuple(where, fc.uint8Array({ minLength: 1, maxLength: 300 })).map(
    ([at, put]): Mutation =>
      (bytes) => {
        const from = Math.floor(at * bytes.length);
        return new Uint8Array([...bytes.subarray(0, from), ...put, ...bytes.subarray(from)]);
      },
  ),
);

describe("decodeSound() of broken files", () => {
  test.each(["WAV", "FLAC", "MP3", "Ogg"])(
    "%s: ends, throws nothing, gives finite samples and known problems",
    async (kind) => {
      const good = files.get(kind);
      if (good === undefined) return console.log(`${kind} is skipped: ffmpeg is not installed`);
      let tried = 0;
      await fc.assert(
        fc.asyncProperty(fc.array(mutation, { minLength: 1, maxLength: 3 }), async (mutations) => {
          tried++;
          const heard = await hear(mutations.reduce((bytes, mutate) => mutate(bytes), good));
          for (const code of heard.codes) expect(Object.keys(recordingCodes)).toContain(code);
          for (const channel of heard.channels) expect(channel.every(Number.isFinite)).toBe(true);
          if (heard.channels.length === 0)
            expect(heard.problems.some(({ severity }) => severity === "error")).toBe(true);
        }),
        { numRuns: FILES, interruptAfterTimeLimit: LONG },
      );
      if (tried < FILES) console.log(`${kind}: ${tried} of ${FILES} broken files in ${LONG / 1000} s`);
      expect(tried).toBeGreaterThanOrEqual(FEWEST);
    },
  );
});
