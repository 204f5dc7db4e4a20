/**
 * How well a backing in the room is found and taken out, and pitches are told, on takes made up of a sound bank: latency and clock against
 * the truth, F-measure within 50 ms (mir_eval's) dry, with the backing as it is, and with it taken out; onsets the backing adds, and whether their bars are
 * told as undecidable; speed in processor time. Needs Debian's
 * fluidr3mono-gm-soundfont.
 */
import { existsSync, readFileSync } from "node:fs";
import { SoundBankLoader } from "spessasynth_core";
import { random } from "../../lib/base/index.js";
import { findOnsets, findPitches, takeFromSound } from "../../lib/listen/index.js";
import { readSoundBank } from "../../lib/render/sound/index.js";
import { backing, score } from "../listen/quayRoom.js";
import { heardBy, inRoom, levelled, mixed, noise, streamOf } from "../listen/room.js";
import { hitRates, matchHits } from "../reference/hitRates.js";
import { BENCH_INSTRUMENTS, type BenchInstrument, leadIns, RATE, sounded, soundTake } from "./soundTakes.js";

const BANK = "/usr/share/sounds/sf3/FluidR3Mono_GM.sf3";
const SEED = process.env.LEEWAY_SEED ?? "quay";
const BLEEDS = [-12, -6, 0, 6] as const;
const SKEWS = [37, -120, 200, -15] as const;

if (!existsSync(BANK)) console.log(`skipped: all of it, because ${BANK} is not there`);
else await measure();

async function measure(): Promise<void> {
  const bytes = readFileSync(BANK);
  // Its decoder starts up with the first bank that is read.
  await readSoundBank(bytes);
  const bank = SoundBankLoader.fromArrayBuffer(new Uint8Array(bytes).buffer);
  console.log(
    `seed ${SEED}; room 0.35 s, its tail 3 dB below the direct sound, hiss at -60 dBFS; takes of ${(backing.samples.length / RATE).toFixed(0)} s`,
  );
  console.log(
    "| instrument | bleed | zero off | skew off (± told) | F dry | F as it is | F taken out | false | added by the backing, of them told | bars told | x real time |",
  );
  console.log("|---|---|---|---|---|---|---|---|---|---|---|");
  const rows: Row[] = [];
  for (const instrument of BENCH_INSTRUMENTS)
    for (const [i, bleed] of BLEEDS.entries()) {
      const found = await row(bank, instrument, { bleed, skewPpm: SKEWS[i]! });
      if (found !== undefined) rows.push(found);
    }
  console.log(
    "\n| bleed | onsets | added by the backing | of them in bars told as undecidable | bars told | x real time |",
  );
  console.log("|---|---|---|---|---|---|");
  for (const bleed of BLEEDS) {
    const those = rows.filter((each) => each.bleed === bleed);
    const sum = (of: (each: Row) => number): number => those.reduce((total, each) => total + of(each), 0);
    const bars = `${sum(({ bars }) => bars)} of ${those.length * score.bars.length}`;
    const speed = sum(({ seconds }) => seconds) / sum(({ took }) => took);
    console.log(
      `| ${bleed} dB | ${sum(({ onsets }) => onsets)} | ${sum(({ added }) => added)} | ${sum(({ told }) => told)} | ${bars} | ${speed.toFixed(0)} x |`,
    );
  }
  console.log("\n| instrument | a note every | right | none | another octave | wrong |");
  console.log("|---|---|---|---|---|---|");
  for (const instrument of BENCH_INSTRUMENTS)
    for (const apart of [0.12, 0.25, 0.5])
      if (instrument.family !== "percussive") await pitches(bank, instrument, apart);
}

interface Row {
  readonly bleed: number;
  readonly onsets: number;
  /** Onsets that are neither the player's nor heard when the player is alone, and those of them in bars told as undecidable. */
  readonly added: number;
  readonly told: number;
  /** Bars told as undecidable. */
  readonly bars: number;
  readonly seconds: number;
  /** Seconds of processor time. */
  readonly took: number;
}

async function row(
  bank: Parameters<typeof soundTake>[0],
  instrument: BenchInstrument,
  { bleed, skewPpm }: { bleed: number; skewPpm: number },
): Promise<Row | undefined> {
  const { samples, truth, zero } = soundTake(bank, instrument, {
    score,
    grade: "able",
    seed: `${SEED}/${instrument.name}`,
  });
  const seconds = samples.length / RATE;
  const start = zero - backing.downbeat;
  const wet = inRoom(heardBy(backing.samples, { from: RATE, rate: RATE, start, skewPpm, seconds }), {
    rate: RATE,
    seconds: 0.35,
    direct: 3,
    seed: SEED,
  });
  const hiss = noise(samples.length, { level: -60, seed: SEED });
  const room = mixed(samples, levelled(wet, samples, bleed), hiss);
  const { family } = instrument;
  const fOf = (onsets: readonly number[]): number =>
    hitRates(matchHits(truth, onsets, 0.05).length, { reference: truth.length, estimated: onsets.length }).f;
  const dry = await findOnsets(streamOf(mixed(samples, hiss), RATE), { family });
  const raw = await findOnsets(streamOf(room, RATE), { family });
  const before = process.cpuUsage();
  const heard = await takeFromSound(() => streamOf(room, RATE), {
    family,
    backing: () => streamOf(backing.samples, RATE),
    score,
  });
  const { user, system } = process.cpuUsage(before);
  const took = (user + system) / 1e6;
  if (!heard.ok || heard.value.backing?.found !== true) {
    console.log(`| ${instrument.name} | ${bleed} dB | not found |`);
    return undefined;
  }
  const place = heard.value.backing;
  const times = heard.value.onsets.map(({ at }) => at);
  const falseOf = (onsets: readonly number[]): readonly number[] => {
    const right = new Set(matchHits(truth, onsets, 0.05).map(([, onset]) => onset));
    return onsets.filter((_, onset) => !right.has(onset));
  };
  const wrong = falseOf(times);
  const ofPlayer = falseOf(dry.onsets.map(({ at }) => at));
  const added = wrong.filter((at) => ofPlayer.every((other) => Math.abs(other - at) > 0.05));
  const told = new Set(heard.value.undecidable.flatMap(({ bars }) => bars ?? []));
  const barAt = (at: number): number | undefined => score.bars.filter((bar) => bar.at <= at - zero).at(-1)?.bar;
  const addedTold = added.filter((at) => told.has(barAt(at) ?? 0));
  const cells = [
    instrument.name.padEnd(10),
    `${bleed} dB`.padStart(6),
    `${(1000 * (place.start - start)).toFixed(3)} ms`.padStart(9),
    `${(place.skewPpm - skewPpm).toFixed(3)} ± ${place.skewErrorPpm.toFixed(3)} ppm`,
    fOf(dry.onsets.map(({ at }) => at)).toFixed(3),
    fOf(raw.onsets.map(({ at }) => at)).toFixed(3),
    fOf(times).toFixed(3),
    `${wrong.length} of ${times.length}`,
    `${added.length}, ${addedTold.length}`,
    `${told.size} of ${score.bars.length}`,
    `${(seconds / took).toFixed(0)} x`,
  ];
  console.log(`| ${cells.join(" | ")} |`);
  const counts = { onsets: times.length, added: added.length, told: addedTold.length, bars: told.size };
  return { bleed, seconds, took, ...counts };
}

async function pitches(
  bank: Parameters<typeof soundTake>[0],
  instrument: BenchInstrument,
  apart: number,
): Promise<void> {
  const chance = random(`${SEED}/pitch`);
  const [low, high] = instrument.keys;
  const leads = leadIns(bank, instrument);
  const strikes = Array.from({ length: 120 }, (_, i) => {
    const key = low + chance.below(high - low + 1);
    const sample = Math.round((0.5 + i * apart) * RATE);
    return {
      sample,
      lead: leads.get(key) ?? 0,
      end: sample + Math.round(0.9 * apart * RATE),
      key,
      velocity: 60 + chance.below(60),
    };
  });
  const length = Math.round((1 + strikes.length * apart) * RATE);
  const sound = mixed(sounded(bank, instrument, { strikes, length }), noise(length, { level: -50, seed: SEED }));
  const found = await findPitches(
    streamOf(sound, RATE),
    strikes.map(({ sample }) => sample / RATE),
  );
  const share = (is: (off: number | undefined) => boolean): string =>
    `${((100 * found.filter((pitch, i) => is(pitch === undefined ? undefined : Math.round(pitch) - strikes[i]!.key)).length) / found.length).toFixed(1)} %`;
  const cells = [
    instrument.name.padEnd(10),
    `${1000 * apart} ms`,
    share((off) => off === 0),
    share((off) => off === undefined),
    share((off) => off !== undefined && off !== 0 && off % 12 === 0),
    share((off) => off !== undefined && off % 12 !== 0),
  ];
  console.log(`| ${cells.join(" | ")} |`);
}
