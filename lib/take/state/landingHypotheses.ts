import type { SlipRows } from "./slipRows.js";

/** One way in which a landing may have gone. */
export interface LandingHypothesis {
  /** Probability; those of one silence add up to 1. */
  readonly weight: number;
  /** Displacements (indices) when the silence began and at the landing. */
  readonly before: number;
  readonly at: number;
  /** Displacement when the tracker made up its mind. */
  readonly after: number;
  /** The onset of the landing note, or -1 when it was left out. */
  readonly onset: number;
  /** Whether that note alone was off, the player being where he was. */
  readonly alone: boolean;
}

/**
 * What the rows say of the landing of a silence, the likeliest first.
 * @param logAlone chance and density of a landing note that is off alone, against what became of it by the row (an onset; negative: left out), natural logarithm
 */
export function hypothesesOf(
  rows: SlipRows,
  silence: number,
  logAlone: (onset: number) => number,
): LandingHypothesis[] {
  let most = Number.NEGATIVE_INFINITY;
  for (let r = 0; r < rows.count; r++) most = Math.max(most, rows.logWeight[r]!);
  const told: (Omit<LandingHypothesis, "weight"> & { weight: number })[] = [];
  const tell = (weight: number, one: Omit<LandingHypothesis, "weight">): void => {
    const known = told.find(
      (each) =>
        each.before === one.before && each.at === one.at && each.onset === one.onset && each.alone === one.alone,
    );
    if (known === undefined) told.push({ weight, ...one });
    else known.weight += weight;
  };
  for (let r = 0; r < rows.count; r++) {
    const weight = Math.exp(rows.logWeight[r]! - most);
    const landed = rows.landed[r] === silence;
    const at = landed ? rows.landingPlace[r]! : rows.place[r]!;
    const onset = landed ? Math.max(-1, rows.landing[r]!) : -1;
    const before = rows.placeBefore[r]!;
    const after = rows.place[r]!;
    tell(weight, { before, at, after, onset, alone: false });
    const alone = weight * Math.exp(logAlone(onset) + rows.logLone[r]!);
    if (rows.lone[r]! >= 0) tell(alone, { before, at, after, onset: rows.lone[r]!, alone: true });
  }
  const total = told.reduce((sum, { weight }) => sum + weight, 0);
  return told
    .map((one) => ({ ...one, weight: one.weight / total }))
    .filter(({ weight }) => weight > 1e-4)
    .sort((a, b) => b.weight - a.weight);
}

/** What the next silence shows of where the player was when it began bears on the landing before: whoever was displaced then was so since. */
export function smoothed(landings: readonly (readonly LandingHypothesis[])[]): (readonly LandingHypothesis[])[] {
  const told = [...landings];
  for (let k = told.length - 2; k >= 0; k--) {
    for (const place of new Set(told[k + 1]!.map(({ before }) => before))) {
      if (place === 0) continue;
      const sum = (of: readonly LandingHypothesis[], key: "before" | "after"): number =>
        of.reduce((total, one) => total + (one[key] === place ? one.weight : 0), 0);
      const [now, then] = [sum(told[k]!, "after"), sum(told[k + 1]!, "before")];
      if (now === 0 || then <= now) continue;
      told[k] = told[k]!.map((one) => ({
        ...one,
        weight: one.weight * (one.after === place ? then / now : (1 - then) / (1 - now)),
      }));
    }
  }
  return told;
}
