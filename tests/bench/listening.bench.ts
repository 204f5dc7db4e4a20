/**
 * How well onsets are heard: takes played by a sound bank, whose truth is known, and annotated recordings of drums, beside every method of
 * a native detector (Debian's aubio-tools) on the same files; then what drift becomes when it is measured from audio.
 *
 * LEEWAY_BANK names another sound bank, LEEWAY_TAKES the takes of each instrument, LEEWAY_SEED the seed, LEEWAY_EACH rows by instrument.
 */
import { spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { BasicSoundBank } from "spessasynth_core";
import { random } from "../../lib/base/index.js";
import { encodeWav } from "../../lib/render/sound/index.js";
import { drumRecordings } from "./drumRecordings.js";
import { driftTally } from "./heardDrift.js";
import { hearOurs, hearPeer } from "./hearers.js";
import { median, PEER_METHODS, type Scores, scoresOf } from "./hearing.js";
import { MATERIALS, materialScore } from "./material.js";
import { inRoom, withBleed, withNoise } from "./soundConditions.js";
import { BENCH_INSTRUMENTS, BENCH_STRINGS, backingOf, bankAt, RATE, soundTake } from "./soundTakes.js";

const SEED = process.env.LEEWAY_SEED ?? "quay";
const TAKES = Number(process.env.LEEWAY_TAKES ?? 3);
const BANK = process.env.LEEWAY_BANK ?? "/usr/share/sounds/sf3/FluidR3Mono_GM.sf3";
const CONDITIONS = ["dry", "room", "noise at 20 dB", "bleed at -12 dB"] as const;

const peerIsThere = spawnSync("aubioonset", ["-h"]).error === undefined;
if (!peerIsThere) console.log("skipped: the peer's columns, because aubioonset (Debian: aubio-tools) is not installed");
const scratch = mkdtempSync(join(tmpdir(), "leeway-bench-"));
const tallies = new Map<string, Map<string, Scores>>();
const spent = { ours: 0, peer: 0, seconds: 0 };
const drift = driftTally();
try {
  if (existsSync(BANK)) await synthetic(await bankAt(BANK));
  else console.log(`skipped: synthetic takes, because ${BANK} is not there`);
  await drums();
  print();
} finally {
  rmSync(scratch, { recursive: true, force: true });
}

async function synthetic(bank: BasicSoundBank): Promise<void> {
  for (const instrument of [...BENCH_INSTRUMENTS, ...BENCH_STRINGS]) {
    for (let run = 0; run < TAKES; run++) {
      const seed = `${SEED}/${instrument.name}/${run}`;
      const bpm = 66 + random(`${seed}/tempo`).below(55);
      const score = materialScore(MATERIALS[[1, 2, 0][run % 3]!]!, { bpm, silentBeats: 4, tolerancePercent: 2.5 });
      const take = soundTake(bank, instrument, { score, grade: run % 2 === 0 ? "able" : "seasoned", seed });
      const backing = backingOf(bank, score, { zero: take.zero, length: take.samples.length });
      for (const condition of CONDITIONS) {
        const samples = conditioned(condition, { take: take.samples, backing, seed });
        const bleeds = condition.startsWith("bleed");
        const heard = await hearOurs(samples, { rate: RATE, family: instrument.family, ...(bleeds && { backing }) });
        const names = [instrument.family, `${instrument.family}, ${condition}`];
        if (process.env.LEEWAY_EACH) names.push(`${instrument.family}, ${instrument.name}`);
        const truths: Truths = [
          [names, take.truth],
          // What the synthesiser was told, with the lead-in of the bank's samples left in.
          [[`${instrument.family}, as driven`], take.driven],
        ];
        for (const [rows, truth] of truths) add(rows, "ours", truth, heard.at);
        // The peer knows nothing of backings; where it could hear one, it is heard without.
        if (peerIsThere) peer(samples, truths);
        if (!bleeds) {
          spent.ours += heard.milliseconds;
          spent.seconds += samples.length / RATE;
        }
        drift.add(`${instrument.family}, ${condition}`, { score, take, heard });
      }
    }
  }
}

function conditioned(
  condition: (typeof CONDITIONS)[number],
  { take, backing, seed }: { take: Float32Array; backing: Float32Array; seed: string },
): Float32Array {
  if (condition === "room") return inRoom(take, { rate: RATE, seed: `${seed}/room` });
  if (condition === "noise at 20 dB") return withNoise(take, { decibels: 20, seed: `${seed}/noise` });
  if (condition === "bleed at -12 dB") {
    const played = inRoom(backing, { rate: RATE, seed: `${seed}/loudspeaker` });
    return withBleed(withNoise(take, { decibels: 50, seed: `${seed}/noise` }), played, 12);
  }
  return take;
}

/** Names of rows of the table, and the onsets that are true for them. */
type Truths = readonly (readonly [names: readonly string[], truth: readonly number[]])[];

function peer(samples: Float32Array, truths: Truths): void {
  const file = join(scratch, "take.wav");
  writeFileSync(file, encodeWav({ rate: RATE, channels: [samples, samples] }, { samples: 16 }));
  for (const method of PEER_METHODS) {
    const { at, milliseconds } = hearPeer(file, method);
    for (const [names, truth] of truths) add(names, method, truth, at);
    if (method === "default") spent.peer += milliseconds;
  }
}

async function drums(): Promise<void> {
  const recordings = drumRecordings();
  if (recordings === undefined) {
    console.log("skipped: recordings of drums, because ../shared/reference/drum-audio is not there");
    return;
  }
  for (const { file, rate, samples, truth } of recordings) {
    const { at } = await hearOurs(samples, { rate, family: "percussive" });
    add(["recorded drums"], "ours", truth, at);
    if (peerIsThere)
      for (const method of PEER_METHODS) add(["recorded drums"], method, truth, hearPeer(file, method).at);
  }
}

function add(names: readonly string[], who: string, truth: readonly number[], at: readonly number[]): void {
  for (const name of names) {
    const row = tallies.get(name) ?? new Map<string, Scores>();
    row.set(who, scoresOf(truth, at, row.get(who)));
    tallies.set(name, row);
  }
}

function print(): void {
  console.log(`seed ${SEED}, ${TAKES} takes of each instrument, bank ${BANK}; F as mir_eval counts it`);
  console.log(
    "| family, condition | F 50 ms | best of peer | F 25 ms | best of peer | median error | median of size |",
  );
  console.log("|---|---|---|---|---|---|---|");
  for (const [name, row] of [...tallies].sort(([a], [b]) => a.localeCompare(b))) {
    const ours = row.get("ours")!;
    const best = (pick: (scores: Scores) => number): string => {
      const rivals = PEER_METHODS.filter((method) => row.has(method));
      const first = rivals.sort((a, b) => pick(row.get(b)!) - pick(row.get(a)!))[0];
      return first === undefined ? "-" : `${pick(row.get(first)!).toFixed(3)} ${first}`;
    };
    const cells = [
      ours.f50.toFixed(3),
      best(({ f50 }) => f50),
      ours.f25.toFixed(3),
      best(({ f25 }) => f25),
      `${median(ours.errors).toFixed(1)} ms`,
      `${median(ours.errors.map(Math.abs)).toFixed(1)} ms`,
    ];
    console.log(`| ${[name.padEnd(30), ...cells].join(" | ")} |`);
  }
  const times = (milliseconds: number): string => `${((1000 * spent.seconds) / milliseconds).toFixed(0)} x real time`;
  console.log(
    `\nspeed (processor time): ours ${times(spent.ours)}${peerIsThere ? `, the peer's default ${times(spent.peer)}` : ""}`,
  );
  drift.print();
}
