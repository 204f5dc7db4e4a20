/** What assessing a take costs: against pairing the same lists with a plain full-matrix dynamic-time-warping library, and by the length of the take. */
import DynamicTimeWarping from "dynamic-time-warping";
import { PLAYERS, playTake } from "../../lib/rehearsal/player.js";
import type { Score, Take } from "../../lib/schema/index.js";
import { assess } from "../../lib/take/index.js";
import { processorMs } from "./clock.js";
import { MATERIALS, materialScore } from "./material.js";

const SEED = process.env.LEEWAY_SEED ?? "quay";
function takesOf(score: Score, count: number): Take[] {
  return Array.from({ length: count }, (_, run) => playTake(score, PLAYERS.able, `${SEED}/speed/${run}`).take);
}

/** The whole of it in compiled code before anything is timed. */
function warmUp(): void {
  for (const material of MATERIALS) {
    const score = materialScore(material, { bpm: 100, silentBeats: 4, tolerancePercent: 2.5 });
    for (const take of takesOf(score, 100)) assess(score, take);
  }
}

const times = (take: Take): number[] => take.onsets.map((onset) => 1000 * (onset as { at: number }).at);

warmUp();
console.log("| material | notes | assess, ms a take | dynamic time warping | ratio |\n|---|---|---|---|---|");
for (const name of ["quarters", "syncopated sixteenths", "eighths", "running sixteenths"]) {
  const score = materialScore(MATERIALS.find((material) => material.name === name)!, {
    bpm: 100,
    silentBeats: 4,
    tolerancePercent: 2.5,
  });
  const takes = takesOf(score, 100);
  const written = score.expected.map(({ at }) => 1000 * at);
  const ours = processorMs(() => takes.forEach((take) => void assess(score, take))) / takes.length;
  const theirs =
    processorMs(() =>
      takes.forEach((take) => void new DynamicTimeWarping(written, times(take), (a, b) => Math.abs(a - b)).getPath()),
    ) / takes.length;
  console.log(
    `| ${name} | ${score.expected.length} | ${ours.toFixed(3)} | ${theirs.toFixed(3)} | ${(ours / theirs).toFixed(2)} |`,
  );
}

const material = MATERIALS.find(({ name }) => name === "syncopated sixteenths")!;
const [short, long] = [4, 40].map((phrases) => {
  const score = materialScore(material, { bpm: 100, silentBeats: 4, tolerancePercent: 2.5, phrases });
  const takes = takesOf(score, 20);
  return processorMs(() => takes.forEach((take) => void assess(score, take))) / takes.length;
}) as [number, number];
console.log(`10 x the phrases take ${(long / short).toFixed(1)} x the time`);

const hour = materialScore(material, { bpm: 100, silentBeats: 4, tolerancePercent: 2.5, phrases: 375 });
const take = playTake(hour, PLAYERS.able, `${SEED}/hour`).take;
globalThis.gc?.();
const before = process.memoryUsage().rss;
const start = performance.now();
const finding = assess(hour, take);
const seconds = (performance.now() - start) / 1000;
const grown = (process.memoryUsage().rss - before) / 2 ** 20;
console.log(
  `a take of ${(hour.duration / 3600).toFixed(2)} hours (${hour.expected.length} notes, ${finding.dropouts.length} dropouts): ${seconds.toFixed(2)} s, ` +
    `resident memory ${(process.memoryUsage().rss / 2 ** 20).toFixed(0)} MB, of which ${grown.toFixed(0)} MB for the take`,
);
