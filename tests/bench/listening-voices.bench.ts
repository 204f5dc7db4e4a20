/**
 * A voice beside a player: speech that is synthesised (Debian's espeak-ng) from shuffled words, in several languages, speeds and heights; takes are rungs of a shipped course, played with
 * their pitches by the instruments of a sound bank.
 *
 * LEEWAY_TAKES: takes of each instrument (6); LEEWAY_SEED the seed; LEEWAY_BANK another sound bank.
 */
import { existsSync } from "node:fs";
import { BANK, besideVoice, type JudgedSilences, SPOKEN_BESIDE } from "./besideVoice.js";
import { bankAt } from "./soundTakes.js";
import { speechIsThere } from "./speech.js";

const SEED = process.env.LEEWAY_SEED ?? "quay";
const TAKES = Number(process.env.LEEWAY_TAKES ?? 6);
const FILE = process.env.LEEWAY_BANK ?? BANK;

if (!speechIsThere) console.log("skipped: espeak-ng (Debian) is not installed");
else if (!existsSync(FILE)) console.log(`skipped: ${FILE} is not there`);
else {
  const bank = await bankAt(FILE);
  console.log("| speech | silences | judged | wrong | reasons |\n|---|---|---|---|---|");
  for (const below of [undefined, 18, 12, 6]) {
    const rows: JudgedSilences[] = [];
    for (const instrument of SPOKEN_BESIDE)
      for (let run = 0; run < TAKES; run++)
        rows.push(await besideVoice(bank, instrument, { run, seed: `${SEED}/${instrument.name}/${run}`, below }));
    const total = (of: "silences" | "judged" | "wrong"): number => rows.reduce((sum, row) => sum + row[of], 0);
    const counts = new Map<string, number>();
    for (const code of rows.flatMap(({ reasons }) => reasons)) counts.set(code, (counts.get(code) ?? 0) + 1);
    const reasons = [...counts].map(([code, count]) => `${code} ${count}`).join(", ");
    const share = `${((100 * total("judged")) / total("silences")).toFixed(1)} %`;
    const name = below === undefined ? "none" : `${below} dB below`;
    console.log(`| ${[name, total("silences"), share, total("wrong"), reasons].join(" | ")} |`);
  }
}
