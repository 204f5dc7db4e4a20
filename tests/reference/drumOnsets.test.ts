import { expect, test } from "vitest";
import { findOnsets } from "../../lib/listen/index.js";
import { drumRecordings } from "../bench/drumRecordings.js";
import { scoresOf } from "../bench/hearing.js";
import { streamOf } from "../listen/strikes.js";

// Six drum recordings with annotated hits, MDB Drums (CC BY-NC-SA 4.0), read in place.
const recordings = drumRecordings();
if (recordings === undefined)
  console.log("skipped: onsets in recordings of drums, because ../shared/reference/drum-audio is not there");

/**
 * F-measures a general-purpose detector reaches on these recordings with the best of its methods: aubioonset of Debian's aubio-tools 0.4.9,
 * high-frequency content for 50 ms and spectral flux for 25 ms; computed here, printed by `npm run bench -- listening`.
 */
const PEER = { f50: 0.945, f25: 0.847 } as const;

test.skipIf(recordings === undefined)(
  "recorded drums are heard at least as well as by the peer's best method",
  async () => {
    let scores: ReturnType<typeof scoresOf> | undefined;
    for (const { rate, samples, truth } of recordings!) {
      const { onsets } = await findOnsets(streamOf([samples], rate), { family: "percussive" });
      scores = scoresOf(
        truth,
        onsets.map(({ at }) => at),
        scores,
      );
    }
    expect(scores!.f50).toBeGreaterThanOrEqual(PEER.f50);
    expect(scores!.f25).toBeGreaterThanOrEqual(PEER.f25);
  },
);
