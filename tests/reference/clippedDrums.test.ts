import { describe, expect, test } from "vitest";
import { drumRecordings } from "../bench/drumRecordings.js";
import { hear, wavBytes } from "../formats/sound/soundFiles.js";

// Six drum recordings, MDB Drums (CC BY-NC-SA 4.0), read in place.
const recordings = drumRecordings();
if (recordings === undefined)
  console.log("skipped: clipping of recorded drums, because ../shared/reference/drum-audio is not there");

const saidOf = async (samples: Float32Array): Promise<readonly string[]> =>
  (await hear(wavBytes({ samples: [samples] }))).codes;

describe.skipIf(recordings === undefined)("recorded drums", () => {
  test.each([0, 1, 2, 3, 4, 5])(
    "are clipped when cut off 6 dB below their loudest sample, wherever that lies, and else not: %i",
    async (index) => {
      const { samples } = recordings![index]!;
      const loudest = samples.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
      for (const decibels of [-1, -10, -20]) {
        const level = 10 ** (decibels / 20);
        const whole = samples.map((value) => (level * value) / loudest);
        expect(await saidOf(whole), `whole, ${decibels} dB`).toEqual([]);
        const cut = samples.map((value) => level * Math.max(-1, Math.min(1, (2 * value) / loudest)));
        expect(await saidOf(cut), `cut off, ${decibels} dB`).toContain("RECORDING_CLIPPED");
      }
    },
  );
});
