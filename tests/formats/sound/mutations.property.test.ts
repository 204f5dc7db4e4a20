import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, test, vi } from "vitest";
import { recordingCodes } from "../../../lib/listen/index.js";
import { encodeFlac } from "../../../lib/render/sound/index.js";
import { chance, mutated } from "../../mutations/mutate.js";
import { sample } from "../../samples.js";
import { clicks, clicksAs, hasFfmpeg, hear, soundOf, wavBytes } from "./soundFiles.js";

const folder = mkdtempSync(join(tmpdir(), "leeway-mutations-"));
const short = clicks(12_000);
/** Small good files by the name of their kind. */
const files = new Map<string, Uint8Array>();

beforeAll(async () => {
  // One decoder writes of its troubles to the console.
  vi.spyOn(console, "error").mockImplementation(() => undefined);
  files.set("WAV", wavBytes({ samples: [short], coding: "f32", extensible: true, long: true }));
  files.set("FLAC", encodeFlac(soundOf([short, short]), { samples: 16 }));
  if (!hasFfmpeg) return;
  files.set("MP3", clicksAs(folder, "a.mp3", ["-c:a", "libmp3lame", "-b:a", "64k"]).bytes);
  files.set("Ogg", clicksAs(folder, "a.ogg", ["-c:a", "libvorbis", "-q:a", "1"]).bytes);
});
afterAll(() => {
  vi.restoreAllMocks();
  rmSync(folder, { force: true, recursive: true });
});

/** Broken files of each kind, in so many tests. */
const FILES = sample({ suite: 1000, proof: 10_000 });
/** The same of kinds whose decoder starts anew for each file, which takes it a tenth of a second. */
const COSTLY_FILES = sample({ suite: 240, proof: 10_000 });
const COSTLY: ReadonlySet<string> = new Set(["MP3", "Ogg"]);
const PARTS = 4;
const KINDS = ["WAV", "FLAC", "MP3", "Ogg"].flatMap((kind) =>
  Array.from({ length: PARTS }, (_, part) => [kind, part + 1] as const),
);

describe("decodeSound() of broken files", () => {
  test.each(KINDS)(
    "%s: ends, throws nothing, gives finite samples and known problems (part %i)",
    async (kind, part) => {
      const good = files.get(kind);
      if (good === undefined) return console.log(`${kind} is skipped: ffmpeg is not installed`);
      await fc.assert(
        fc.asyncProperty(fc.integer({ min: 1 }), async (number) => {
          const heard = await hear(mutated(good, { seeds: [good], pieces: [] }, chance(PARTS * number + part)));
          for (const code of heard.codes) expect(Object.keys(recordingCodes)).toContain(code);
          for (const channel of heard.channels) expect(channel.every(Number.isFinite)).toBe(true);
          if (heard.channels.length === 0)
            expect(heard.problems.some(({ severity }) => severity === "error")).toBe(true);
        }),
        { numRuns: (COSTLY.has(kind) ? COSTLY_FILES : FILES) / PARTS, endOnFailure: true },
      );
    },
  );
});
