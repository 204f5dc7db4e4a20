import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { decodeInBrowser, type SoundContext } from "../../../lib/listen/index.js";
import { clicks, clicksAs, gather, hasFfmpeg, wavBytes } from "./soundFiles.js";

const folder = mkdtempSync(join(tmpdir(), "leeway-browser-"));
afterAll(() => rmSync(folder, { force: true, recursive: true }));

const samples = clicks(100_000);

/** A context that takes the bytes away, as browsers do, and gives these samples. */
const context = (channel = samples): SoundContext => ({
  decodeAudioData: async (bytes) => {
    structuredClone(bytes, { transfer: [bytes] });
    return { sampleRate: 44_100, length: channel.length, numberOfChannels: 1, getChannelData: () => channel };
  },
});

describe("decodeInBrowser()", () => {
  test("gives what the browser decoded in blocks, and leaves the bytes alone", async () => {
    const bytes = wavBytes({ samples: [samples] });
    const before = bytes.slice();
    const opened = await decodeInBrowser(bytes, context(), { name: "take.flac" });
    if (!opened.ok) throw new Error();
    const heard = await gather(opened.value);
    expect(heard.channels).toEqual([samples]);
    expect(heard.codes).toEqual(["RECORDING_NAMED_WRONGLY"]);
    expect(bytes).toEqual(before);
  });

  test("answers what the browser refuses with a problem", async () => {
    const refusing: SoundContext = { decodeAudioData: () => Promise.reject(new DOMException("Unable to decode")) };
    const codes = async (bytes: Uint8Array) => {
      const opened = await decodeInBrowser(bytes, refusing);
      return opened.ok ? [] : opened.problems.map(({ code }) => code);
    };
    expect(await codes(wavBytes({ samples: [samples] }))).toEqual(["RECORDING_DECODER_FAILED"]);
    expect(await codes(new Uint8Array(0))).toEqual(["RECORDING_EMPTY"]);
    expect(await codes(new Uint8Array(100))).toEqual(["RECORDING_FORMAT_UNKNOWN"]);
  });

  test.skipIf(!hasFfmpeg)(
    "takes 1105 samples off MP3 without a tag, which browsers leave on, and none off others",
    async () => {
      for (const [tag, length, codes] of [
        ["0", 100_000 - 1105, ["RECORDING_START_UNSTATED"]],
        ["1", 100_000, []],
      ] as const) {
        const { bytes } = clicksAs(folder, `tag${tag}.mp3`, ["-c:a", "libmp3lame", "-write_xing", tag]);
        const opened = await decodeInBrowser(bytes, context());
        if (!opened.ok) throw new Error();
        const heard = await gather(opened.value);
        expect(heard.channels[0]!.length).toBe(length);
        expect(heard.codes).toEqual(codes);
      }
    },
  );
});
