/** How well the pulse of open bars is found: simulated improvisers whose truth is known, against a smoother told which subdivision each note was on. */
import { type Random, random } from "../../lib/base/index.js";
import { PLAYERS, type Player, playTake } from "../../lib/rehearsal/player.js";
import type { Score } from "../../lib/schema/index.js";
import { assess } from "../../lib/take/index.js";
import { passOver } from "../../lib/take/state/filter.js";
import { guideOf } from "../../lib/take/state/guide.js";
import { MATERIALS, materialScore } from "./material.js";

const SEED = process.env.LEEWAY_SEED ?? "quay";
const TAKES = Number(process.env.LEEWAY_TAKES ?? 300);
const NINETY = 1.6448536;

interface Improvised {
  readonly score: Score;
  /** The same with every note that was played written out, for the smoother that is told. */
  readonly told: Score;
}

/** Phrases of four bars of eighths, the fourth open and silent; the player takes 3 to 12 of its subdivisions. */
function improvised(chance: Random, { bpm, swung }: { bpm: number; swung: boolean }): Improvised {
  const material = MATERIALS.find(({ name }) => name === (swung ? "swung eighths" : "eighths"))!;
  const written = materialScore(material, { bpm, silentBeats: 4, tolerancePercent: 2.5 });
  const places = swung ? [0, 2 / 3, 1, 5 / 3, 2, 8 / 3, 3, 11 / 3] : Array.from({ length: 16 }, (_, i) => i / 4);
  const open = written.dropouts.map(({ from, to }) => ({
    from,
    to,
    bars: [],
    scale: "D dorian",
    pitchClasses: [2, 4, 5, 7, 9, 11, 0],
    subdivision: (swung ? written.beat / 2 : written.beat / 4) as number,
    grid: places.map((beats) => from + beats * written.beat),
  }));
  const outside = written.expected.filter(
    ({ at }) => !open.some(({ from, to }) => at >= from - 1e-6 && at < to - 1e-6),
  );
  const taken = open.flatMap(({ grid }) => {
    const count = Math.min(grid.length, 3 + chance.below(10));
    const order = grid.map((at) => ({ at, key: chance.uniform() })).sort((a, b) => a.key - b.key);
    return order.slice(0, count).map(({ at }) => ({ position: "0", at, part: "lead", bar: 0 }));
  });
  const expected = [...outside, ...taken].sort((a, b) => a.at - b.at);
  return { score: { ...written, expected: outside, open }, told: { ...written, expected } };
}

function measure(grade: "seasoned" | "able" | "novice", swung: boolean): void {
  let [stretches, measured, error, toldError, covered] = [0, 0, 0, 0, 0];
  for (let run = 0; run < TAKES; run++) {
    const chance = random(`${SEED}/open/${grade}/${swung}/${run}`);
    const { score, told } = improvised(chance, { bpm: 60 + chance.below(81), swung });
    const player: Player = {
      ...PLAYERS[grade],
      correction: 0.25 + 0.25 * chance.uniform(),
      offsetMs: -20 + 120 * (chance.uniform() - 0.5),
    };
    const { take, truth } = playTake(told, player, `${SEED}/open/${grade}/${swung}/${run}/take`);
    const finding = assess(score, take);
    const late = new Float64Array(told.expected.length).fill(Number.NaN);
    for (const [note, onset] of truth.pairs)
      late[note] = 1000 * ((take.onsets[onset] as { at: number }).at - told.expected[note]!.at);
    const noise = {
      clock: player.clockMs,
      motor: player.motorMs,
      bias: player.biasPercent / 100,
      correction: player.correction,
    };
    const best = passOver(guideOf(told), late, noise, { mean: player.offsetMs, sd: 100 });
    finding.openBars.forEach(({ driftMs, standardErrorMs }, index) => {
      stretches++;
      if (typeof driftMs !== "number" || typeof standardErrorMs !== "number") return;
      measured++;
      error += (driftMs - truth.driftMs[index]!) ** 2;
      toldError += (best.drift[index]! - truth.driftMs[index]!) ** 2;
      if (Math.abs(driftMs - truth.driftMs[index]!) <= NINETY * standardErrorMs) covered++;
    });
  }
  const cells = [
    `${((100 * measured) / stretches).toFixed(1)} %`,
    Math.sqrt(error / toldError).toFixed(3),
    `${((100 * covered) / measured).toFixed(1)} %`,
  ];
  console.log(
    `| ${[`${grade}, ${swung ? "swung eighths" : "sixteenths"}`.padEnd(24), ...cells.map((cell) => cell.padStart(8))].join(" | ")} |`,
  );
}

/** Onsets at random in the open bars: how often is a pulse claimed? */
function falsePulses(swung: boolean): void {
  let [stretches, claimed] = [0, 0];
  for (let run = 0; run < TAKES * 3; run++) {
    const chance = random(`${SEED}/random/${swung}/${run}`);
    const { score } = improvised(chance, { bpm: 60 + chance.below(81), swung });
    const { take } = playTake(score, PLAYERS.able, `${SEED}/random/${swung}/${run}/take`);
    const noise = score.open.flatMap(({ from, to }) =>
      Array.from({ length: 5 + chance.below(8) }, () => ({ at: from + chance.uniform() * (to - from) })),
    );
    const finding = assess(score, { ...take, onsets: [...take.onsets, ...noise] });
    for (const { driftMs } of finding.openBars) {
      stretches++;
      if (typeof driftMs === "number") claimed++;
    }
  }
  console.log(
    `random onsets, ${swung ? "swung eighths" : "sixteenths"}: a pulse is claimed in ${((100 * claimed) / stretches).toFixed(1)} % of ${stretches} stretches`,
  );
}

console.log(`seed ${SEED}, ${TAKES} takes for each row, one open and silent bar in four`);
console.log("| player, grid | pulse found | drift RMSE / told the grid | 90 % covers |\n|---|---|---|---|");
for (const grade of ["seasoned", "able", "novice"] as const) for (const swung of [false, true]) measure(grade, swung);
for (const swung of [false, true]) falsePulses(swung);
