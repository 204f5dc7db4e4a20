import { existsSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { BANK, besideVoice, type JudgedSilences, judged, riffScore, SPOKEN_BESIDE } from "../bench/besideVoice.js";
import { bankAt, RATE } from "../bench/soundTakes.js";
import { speech, speechIsThere } from "../bench/speech.js";
import { sample } from "../samples.js";

const missing = [
  ...(speechIsThere ? [] : ["espeak-ng (Debian: espeak-ng)"]),
  ...(existsSync(BANK) ? [] : [`${BANK} (Debian: fluidr3mono-gm-soundfont)`]),
];
if (missing.length > 0) console.log(`skipped: recordings of speech, without ${missing.join(" and ")}`);

describe.skipIf(missing.length > 0)("recordings with speech", () => {
  test("speech alone is neither within nor beyond", async () => {
    const count = sample({ suite: 2, proof: 200 });
    for (let run = 0; run < count; run++) {
      const score = riffScore(run);
      const said = speech(score.countIn + score.duration + 2, RATE, `alone/${run}`);
      const { finding } = await judged(said, score, { family: run % 2 === 0 ? "blown" : "plucked", start: 1 });
      expect(finding.verdict, `${run}: ${finding.sentence}`).toBe("unclear");
      expect(finding.dropouts.map(({ verdict }) => verdict).filter((verdict) => verdict !== "unclear")).toEqual([]);
    }
  });

  test("beside speech 12 dB below more than half of the silences are judged, and none wrongly", async () => {
    const bank = await bankAt(BANK);
    const rows: JudgedSilences[] = [];
    for (let run = 0; run < sample({ suite: 2, proof: 49 }); run++) {
      const instrument = SPOKEN_BESIDE[run % SPOKEN_BESIDE.length]!;
      rows.push(await besideVoice(bank, instrument, { run, seed: `beside/${run}`, below: 12 }));
    }
    const total = (of: "silences" | "judged" | "wrong"): number => rows.reduce((sum, row) => sum + row[of], 0);
    expect(total("wrong")).toBe(0);
    expect(total("judged") / total("silences")).toBeGreaterThan(0.5);
  });
});
