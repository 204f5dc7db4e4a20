import type { Score } from "../../lib/schema/index.js";
import { assess } from "../../lib/take/index.js";
import type { Heard } from "./hearers.js";
import type { SoundedTake } from "./soundTakes.js";

const TOLERANCE_PERCENT = 2.5;

interface Tally {
  dropouts: number;
  heard: number;
  told: number;
  unmeasured: number;
  wronglyWithin: number;
  wronglyBeyond: number;
  unclear: number;
}

/** Drift measured from what was heard, beside drift measured from the true onsets of the same takes. */
export function driftTally(): {
  add: (name: string, of: { score: Score; take: SoundedTake; heard: Heard }) => void;
  print: () => void;
} {
  const tallies = new Map<string, Tally>();
  return {
    add: (name, { score, take, heard }) => {
      const own = tallies.get(name) ?? nothing();
      tallies.set(name, own);
      const onsets = heard.at.map((at) => ({ at: at - take.zero }));
      const { dropouts } = assess(score, { zero: "bar-1", onsets, motorFloorMs: Math.min(100, heard.noiseMs) });
      const told = assess(score, take.played.take).dropouts;
      dropouts.forEach((dropout, index) => {
        const truth = take.played.truth.driftMs[index]!;
        const limit = (TOLERANCE_PERCENT / 100) * 1000 * (dropout.to - dropout.from);
        own.dropouts++;
        if (dropout.verdict === "unclear") own.unclear++;
        if (dropout.verdict === "within" && Math.abs(truth) > 1.5 * limit) own.wronglyWithin++;
        if (dropout.verdict === "beyond" && Math.abs(truth) < 0.67 * limit) own.wronglyBeyond++;
        const other = told[index]!.driftMs;
        if (typeof dropout.driftMs !== "number" || typeof other !== "number") {
          own.unmeasured++;
          return;
        }
        own.heard += (dropout.driftMs - truth) ** 2;
        own.told += (other - truth) ** 2;
      });
    },
    print: () => {
      console.log(
        "\n| drift | dropouts | RMSE heard / from true onsets | unmeasured | wrongly within | wrongly beyond | unclear |",
      );
      console.log("|---|---|---|---|---|---|---|");
      const all = nothing();
      const line = (name: string, t: Tally): void => {
        const share = (count: number): string => `${((100 * count) / t.dropouts).toFixed(1)} %`;
        const shares = [t.unmeasured, t.wronglyWithin, t.wronglyBeyond, t.unclear].map(share);
        console.log(
          `| ${[name.padEnd(30), t.dropouts, Math.sqrt(t.heard / t.told).toFixed(2), ...shares].join(" | ")} |`,
        );
      };
      for (const [name, tally] of tallies) {
        for (const key of Object.keys(all) as (keyof Tally)[]) all[key] += tally[key];
        line(name, tally);
      }
      if (all.dropouts > 0) line("all", all);
    },
  };
}

function nothing(): Tally {
  return { dropouts: 0, heard: 0, told: 0, unmeasured: 0, wronglyWithin: 0, wronglyBeyond: 0, unclear: 0 };
}
