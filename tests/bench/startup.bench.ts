/**
 * What starting the command line costs, as a ratio to `node -e 0`: processor time of whole processes, run in turn, pair by pair, so that a machine that
 * is doing other things slows both. LEEWAY_RUNS pairs a row (default 15); needs the build.
 */
import { spawnSync } from "node:child_process";

const RUNS = Number(process.env.LEEWAY_RUNS ?? 15);
const COURSE = "curricula/quayside-first-course.yaml";

/** Most that each may take, in runs of `node -e 0`: our choice. */
const ROWS: readonly { readonly words: readonly string[]; readonly most: number }[] = [
  { words: ["--version"], most: 1.5 },
  { words: ["check", COURSE], most: 4 },
  { words: ["assess", COURSE, "half-bar", "1", "curricula/takes/half-bar.mid"], most: 4 },
];

const entry = "dist/cli/main.js";
console.log("processor time as a ratio to node -e 0, median (least to most) of pairs of whole processes");
for (const { words, most } of ROWS) {
  const ratios: number[] = [];
  // The first pair warms the disk's memory and is not counted.
  for (let run = 0; run <= RUNS; run++) {
    const ratio = processorTime([entry, ...words]) / processorTime(["-e", "0"]);
    if (run > 0) ratios.push(ratio);
  }
  ratios.sort((a, b) => a - b);
  const [least, median, greatest] = [ratios[0]!, ratios[Math.floor(ratios.length / 2)]!, ratios.at(-1)!];
  const row = `leeway ${words[0]}`.padEnd(18);
  console.log(`${row} ${median.toFixed(2)} (${least.toFixed(2)} to ${greatest.toFixed(2)}); aim at most ${most}`);
}

/** Seconds of processor time, user and system, of a process from start to end: the shell's `times` prints its own and then its children's. */
function processorTime(words: readonly string[]): number {
  const { stdout, status } = spawnSync(
    "sh",
    ["-c", '"$@" >/dev/null || exit; times', "sh", process.execPath, ...words],
    {
      encoding: "utf8",
    },
  );
  const children = stdout.trim().split("\n").at(-1) ?? "";
  const seconds = [...children.matchAll(/(\d+)m([\d.]+)s/g)].map(
    ([, minutes, rest]) => 60 * Number(minutes) + Number(rest),
  );
  if (status !== 0 || seconds.length !== 2) throw new Error(`cannot be measured: ${words.join(" ")}`);
  return seconds[0]! + seconds[1]!;
}
