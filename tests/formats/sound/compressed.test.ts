import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { CLICKS, clicksAs, clicksIn, hasFfmpeg, hear, inPieces } from "./soundFiles.js";

const folder = mkdtempSync(join(tmpdir(), "leeway-sound-"));
afterAll(() => rmSync(folder, { force: true, recursive: true }));

/** How far a click's rise may move, samples: a lossy encoder smears it over a short block of 128 samples (MP3, Vorbis, AAC alike) at most. */
const SMEAR = 128;

/** Clicks found in a sound, less where they were put. */
function moved(samples: Float32Array): number[] {
  const truth = [...CLICKS];
  return clicksIn(samples).map((at, i) => at - truth[i]!);
}

function expectInPlace(samples: Float32Array | undefined): void {
  for (const by of moved(samples!)) expect(Math.abs(by)).toBeLessThanOrEqual(SMEAR);
}

const MP3 = ["-c:a", "libmp3lame", "-b:a", "128k"];

describe.skipIf(!hasFfmpeg)("decodeSound() of MP3", () => {
  test("takes off what the encoder put before and behind the sound, as its tag says", async () => {
    for (const words of [MP3, ["-c:a", "libmp3lame", "-q:a", "4", "-ar", "22050"], [...MP3, "-ac", "2"]]) {
      const heard = await hear(clicksAs(folder, "tagged.mp3", words).bytes, "tagged.mp3");
      expect(heard.codes).toEqual([]);
      expect(heard.channels[0]!.length).toBe(heard.rate);
      if (heard.rate === 44_100) expectInPlace(heard.channels[0]);
    }
  });

  test("assumes the usual amount and says so when there is no tag", async () => {
    const heard = await hear(clicksAs(folder, "untagged.mp3", [...MP3, "-write_xing", "0"]).bytes);
    expect(heard.codes).toEqual(["RECORDING_START_UNSTATED"]);
    expectInPlace(heard.channels[0]);
  });

  test("leaves out tags with pictures before, and tags behind", async () => {
    const { bytes } = clicksAs(folder, "titled.mp3", [...MP3, "-metadata", "title=quay", "-write_id3v1", "1"]);
    const picture = new Uint8Array(10 + 300_000);
    picture.set([0x49, 0x44, 0x33, 4, 0, 0, 0, 0x12, 0x27, 0x60]);
    const heard = await hear(new Uint8Array([...picture, ...bytes]));
    expect(heard.codes).toEqual([]);
    expectInPlace(heard.channels[0]);
  });

  test("does not depend on how the bytes arrive", async () => {
    const { bytes } = clicksAs(folder, "pieces.mp3", MP3);
    expect(await hear(inPieces(bytes, 100))).toEqual(await hear(bytes));
  });

  test("keeps the times around frames whose header is broken, missing or junk", async () => {
    const { bytes } = clicksAs(folder, "broken.mp3", MP3);
    const middle = Math.round(0.55 * bytes.length);
    const headless = bytes.slice();
    headless.fill(0x33, middle, middle + 500);
    const missing = new Uint8Array([...bytes.subarray(0, middle), ...bytes.subarray(middle + 700)]);
    for (const [what, broken] of Object.entries({ headless, missing })) {
      const heard = await hear(broken);
      expect(heard.codes, what).toContain("RECORDING_DAMAGED");
      // Bytes that are simply gone take frames with them, which the count in the tag tells.
      if (what === "missing") expect(heard.codes).toContain("RECORDING_TIMES_LOST");
      else expectInPlace(heard.channels[0]);
    }
  });

  test("says how much of a truncated file is there", async () => {
    const { bytes } = clicksAs(folder, "cut.mp3", MP3);
    const heard = await hear(bytes.subarray(0, bytes.length >> 1));
    expect(heard.codes).toEqual(["RECORDING_CUT_SHORT"]);
    expect(heard.channels[0]!.length).toBeGreaterThan(18_000);
    expect(heard.channels[0]!.length).toBeLessThan(26_000);
  });

  test("listens to what is inside, and says when the name says something else", async () => {
    const heard = await hear(clicksAs(folder, "named.mp3", MP3).bytes, "/a/folder/named.wav");
    expect(heard.problems).toMatchObject([
      { code: "RECORDING_NAMED_WRONGLY", severity: "advice", message: "it is named named.wav, and is MP3 inside" },
    ]);
    expectInPlace(heard.channels[0]);
  });

  test("refuses a file that is only named MP3", async () => {
    expect((await hear(new Uint8Array(20_000).fill(65), "song.mp3")).codes).toEqual(["RECORDING_FORMAT_UNKNOWN"]);
  });
});

describe.skipIf(!hasFfmpeg)("decodeSound() of Ogg", () => {
  const VORBIS = ["-c:a", "libvorbis", "-q:a", "5"];

  test("gives Vorbis at its place, to the sample as long as it was", async () => {
    const heard = await hear(clicksAs(folder, "clicks.ogg", VORBIS).bytes, "clicks.ogg");
    expect(heard.codes).toEqual([]);
    expect(heard.channels[0]!.length).toBe(44_100);
    expectInPlace(heard.channels[0]);
  });

  test("says when the times cannot be trusted any more, or when it breaks off", async () => {
    const { bytes } = clicksAs(folder, "long.ogg", [...VORBIS, "-af", "aloop=9:44100", "-page_duration", "100000"]);
    const gone = new Uint8Array([...bytes.subarray(0, bytes.length >> 1), ...bytes.subarray(0.7 * bytes.length)]);
    expect((await hear(gone)).codes).toContain("RECORDING_TIMES_LOST");
    expect((await hear(bytes.subarray(0, bytes.length >> 1))).codes).toEqual(["RECORDING_CUT_SHORT"]);
  });

  test("refuses Opus by its name", async () => {
    const heard = await hear(clicksAs(folder, "clicks.opus", ["-c:a", "libopus"]).bytes);
    expect(heard.problems).toMatchObject([
      { code: "RECORDING_DECODER_MISSING", message: expect.stringMatching("Ogg Opus") },
    ]);
  });
});
