/** How well takes are measured: simulated players whose truth is known, against a smoother told the true pairing and the true noise. */
import { random } from "../../lib/base/index.js";
import { PLAYERS, type PlayedTake, type Player, playTake } from "../../lib/rehearsal/player.js";
import type { Finding, Score } from "../../lib/schema/index.js";
import { assess } from "../../lib/take/index.js";
import { passOver } from "../../lib/take/state/filter.js";
import { guideOf } from "../../lib/take/state/guide.js";
import { MATERIALS, materialScore } from "./material.js";

const SEED = process.env.LEEWAY_SEED ?? "quay";
const TAKES = Number(process.env.LEEWAY_TAKES ?? 120);
const TOLERANCE_PERCENT = 2.5;
const SILENCES = [2, 4, 8];
const NINETY = 1.6448536;

interface Tally {
  notes: number;
  paired: number;
  dropouts: number;
  error: number;
  told: number;
  covered: number;
  wronglyWithin: number;
  wronglyBeyond: number;
  unclear: number;
  misread: number;
  misreadClear: number;
  shift: number;
}
const nothing = (): Tally => ({
  notes: 0,
  paired: 0,
  dropouts: 0,
  error: 0,
  told: 0,
  covered: 0,
  wronglyWithin: 0,
  wronglyBeyond: 0,
  unclear: 0,
  misread: 0,
  misreadClear: 0,
  shift: 0,
});

/** Drift by the same time model, told which onset is which note and what the player's noise is. */
function toldEverything(score: Score, player: Player, { take, truth }: PlayedTake): Float64Array {
  const guide = guideOf(score);
  const late = new Float64Array(score.expected.length).fill(Number.NaN);
  for (const [note, onset] of truth.pairs)
    late[note] = 1000 * ((take.onsets[onset] as { at: number }).at - score.expected[note]!.at);
  const noise = {
    clock: player.clockMs,
    motor: player.motorMs,
    bias: player.biasPercent / 100,
    correction: player.correction,
  };
  return passOver(guide, late, noise, { mean: player.offsetMs, sd: 100 }).drift;
}

function record(
  tally: Tally,
  finding: Finding,
  { score, player, played }: { score: Score; player: Player; played: PlayedTake },
): void {
  const owner = new Map(played.truth.pairs.map(([note, onset]) => [onset, note]));
  const onsetOf = new Map(played.truth.pairs);
  const read = new Map(finding.pairs);
  score.expected.forEach((_, note) => {
    tally.notes++;
    if (read.get(note) === onsetOf.get(note)) tally.paired++;
  });
  const told = toldEverything(score, player, played);
  finding.dropouts.forEach((dropout, index) => {
    const truth = played.truth.driftMs[index]!;
    const limit = (TOLERANCE_PERCENT / 100) * 1000 * (dropout.to - dropout.from);
    const inside = (note: number): boolean =>
      score.expected[note]!.at >= dropout.from && score.expected[note]!.at <= dropout.to;
    const misread = finding.pairs.some(
      ([note, onset]) => inside(note) && owner.has(onset) && owner.get(onset) !== note,
    );
    tally.dropouts++;
    tally.told += (told[index]! - truth) ** 2;
    if (dropout.verdict === "unclear") tally.unclear++;
    if (misread) tally.misread++;
    if (misread && dropout.verdict !== "unclear") tally.misreadClear++;
    if (dropout.verdict === "within" && Math.abs(truth) > 1.5 * limit) tally.wronglyWithin++;
    if (dropout.verdict === "beyond" && Math.abs(truth) < 0.67 * limit) tally.wronglyBeyond++;
    if (typeof dropout.driftMs !== "number" || typeof dropout.standardErrorMs !== "number") {
      tally.error += truth ** 2;
      return;
    }
    tally.error += (dropout.driftMs - truth) ** 2;
    if (Math.abs(dropout.driftMs - truth) <= NINETY * dropout.standardErrorMs) tally.covered++;
  });
}

function measure(grade: keyof typeof PLAYERS, materials: typeof MATERIALS): Tally {
  const tally = nothing();
  for (const material of materials) {
    for (let run = 0; run < TAKES; run++) {
      const seed = `${SEED}/${grade}/${material.name}/${run}`;
      const chance = random(seed);
      const score = materialScore(material, {
        bpm: 60 + chance.below(81),
        silentBeats: SILENCES[run % 3]!,
        tolerancePercent: TOLERANCE_PERCENT,
      });
      const player = {
        ...PLAYERS[grade],
        correction: 0.25 + 0.25 * chance.uniform(),
        offsetMs: -20 + 120 * (chance.uniform() - 0.5),
      };
      const played = playTake(score, player, `${seed}/take`);
      const finding = assess(score, played.take);
      record(tally, finding, { score, player, played });
      if (run % 6 === 0) {
        const by = 0.12 * (chance.uniform() - 0.5);
        const shifted = assess(score, {
          ...played.take,
          onsets: played.take.onsets.map((onset) => ({ at: (onset as { at: number }).at + by })),
        });
        finding.dropouts.forEach(({ driftMs }, index) => {
          const other = shifted.dropouts[index]!.driftMs;
          if (typeof driftMs === "number" && typeof other === "number" && grade !== "wild") {
            tally.shift = Math.max(tally.shift, Math.abs(other - driftMs));
          }
        });
      }
    }
  }
  return tally;
}

const per = (part: number, whole: number): string => `${((100 * part) / Math.max(1, whole)).toFixed(2)} %`;
function row(name: string, t: Tally): void {
  const cells = [
    per(t.paired, t.notes),
    Math.sqrt(t.error / t.told).toFixed(3),
    per(t.covered, t.dropouts),
    per(t.wronglyWithin, t.dropouts),
    per(t.wronglyBeyond, t.dropouts),
    per(t.unclear, t.dropouts),
    per(t.misreadClear, t.dropouts),
    `${t.shift.toFixed(2)} ms`,
  ];
  console.log(`| ${[name.padEnd(34), ...cells.map((cell) => cell.padStart(8))].join(" | ")} |`);
}

console.log(`seed ${SEED}, ${TAKES} takes for each player and material, tolerance ${TOLERANCE_PERCENT} % of tempo`);
console.log(
  "| player, material | paired as truth | RMSE / told everything | 90 % covers | wrongly within | wrongly beyond | unclear | misread, not unclear | moved by a shift |",
);
console.log("|---|---|---|---|---|---|---|---|---|");
for (const grade of ["seasoned", "able", "novice", "wild"] as const) {
  if (process.env.LEEWAY_EACH)
    for (const material of MATERIALS) row(`${grade}, ${material.name}`, measure(grade, [material]));
  row(grade, measure(grade, MATERIALS));
}
