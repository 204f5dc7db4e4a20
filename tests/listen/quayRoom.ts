/** A lesson in a room, from a shipped course: the backing from a loudspeaker, a player who plays the lead, and a phone that hears both. */
import { readFileSync } from "node:fs";
import { readCurriculum } from "../../lib/curriculum/index.js";
import { rungs, scoreOf } from "../../lib/drill/index.js";
import { renderSound } from "../../lib/render/sound/index.js";
import type { Score } from "../../lib/schema/index.js";
import { heardBy, inRoom, levelled, mixed, noise } from "./room.js";

const FILE = "quayside-first-course.yaml";
export const RATE = 44100;

function scoreIn(mix: string): Score {
  const text = readFileSync(`curricula/${FILE}`, "utf8");
  const course = readCurriculum(text, { file: FILE, readFile: () => undefined });
  if (!course.ok) throw new Error(JSON.stringify(course.problems));
  return scoreOf(rungs(course.value.drills.find(({ name }) => name === "half-bar")!).at(0), mix);
}

function oneChannel(score: Score): { samples: Float32Array; downbeat: number } {
  const made = renderSound(score);
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  const [left, right] = made.value.channels;
  return {
    samples: Float32Array.from(left, (value, i) => (value + right[i]!) / 2),
    downbeat: made.value.downbeat / RATE,
  };
}

export const score: Score = scoreIn("play");
const listening = scoreIn("listen");
export const backing = oneChannel(score);
const lead = oneChannel({
  ...listening,
  countIn: 0,
  parts: listening.parts.filter(({ name }) => name === "lead"),
});

export interface Lesson {
  readonly samples: Float32Array;
  readonly rate: number;
  /** The player alone, as the phone hears it. */
  readonly player: Float32Array;
  /** Seconds of the recording at which the backing's first sample arrives. */
  readonly start: number;
}

/** A recording of a lesson: the player is `lateMs` behind the backing, which is `bleed` dB beside the player. */
export function lesson({
  rate = RATE,
  start = 0.8,
  skewPpm = 0,
  bleed = -12,
  lateMs = 15,
  seconds = start + backing.samples.length / RATE + 0.5,
}: {
  rate?: number;
  start?: number;
  skewPpm?: number;
  bleed?: number;
  lateMs?: number;
  seconds?: number;
} = {}): Lesson {
  const clock = { from: RATE, rate, skewPpm, seconds };
  const begins = start + (backing.downbeat - lead.downbeat + lateMs / 1000) * (1 + skewPpm * 1e-6);
  const player = heardBy(lead.samples, { ...clock, start: begins });
  const loudspeaker = inRoom(heardBy(backing.samples, { ...clock, start }), {
    rate,
    seconds: 0.3,
    direct: 3,
    seed: "quay room",
  });
  const hiss = noise(player.length, { level: -65, seed: "hiss" });
  const samples = Number.isFinite(bleed)
    ? mixed(player, levelled(loudspeaker, player, bleed), hiss)
    : mixed(player, hiss);
  return { samples, rate, player, start };
}
