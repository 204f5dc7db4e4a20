/** A student at the quay who plays the lead, as a microphone hears it, with and without the band in the room. */
import { readFileSync } from "node:fs";
import { readCurriculum } from "../../lib/curriculum/index.js";
import { rungs, scoreOf } from "../../lib/drill/index.js";
import { PLAYERS, playTake } from "../../lib/rehearsal/index.js";
import { renderSound } from "../../lib/render/sound/index.js";
import type { Score, Take } from "../../lib/schema/index.js";
import { inRoom, levelled, mixed, noise } from "../listen/room.js";

const FILE = "quayside-first-course.yaml";
export const RATE = 44_100;

/** The quickest rung of the drill with half a bar of silence, shortened to two phrases. */
const scores: readonly Score[] = ["play", "listen"].map((mix) => {
  const text = readFileSync(`curricula/${FILE}`, "utf8").replace(
    "dropout: { length: 1/2 bar, parts: [kit, bass] }",
    "$&\n    phrases: 2",
  );
  const course = readCurriculum(text, { file: FILE, readFile: () => undefined });
  if (!course.ok) throw new Error(JSON.stringify(course.problems));
  return scoreOf(rungs(course.value.drills.find(({ name }) => name === "half-bar")!).at(2), mix);
});
export const score: Score = scores[0]!;

/** What a seasoned student plays, from the start of the count-in. */
export function takeOf(seed: string): Take {
  const { onsets } = playTake(score, { ...PLAYERS.seasoned, missing: 0, adding: 0 }, seed).take;
  const times = onsets.map((onset) => (typeof onset === "number" ? onset : onset.at));
  return { onsets: times.map((at) => ({ at: at + score.countIn })), zero: "count-in" };
}

/** Seconds from the click that begins a recording to the count-in, as the microphone hears it. */
export const CLICK = 1.5;
export const UNTIL_COUNT_IN = 4;

/** What a microphone hears: hiss, a click at `CLICK`, and from `UNTIL_COUNT_IN` later on the student and, `bleed` dB beside, the band; nothing at all in a gap. */
export function recordingOf(
  take: Take,
  { bleed, gap }: { readonly bleed: number | undefined; readonly gap?: { readonly from: number; readonly to: number } },
): Float32Array {
  const zero = CLICK + UNTIL_COUNT_IN;
  const length = Math.ceil((zero + score.countIn + score.duration + 2) * RATE);
  const hiss = noise(length, { level: -60, seed: "hiss" });
  const click = Float32Array.from({ length }, (_, i) => (i >= CLICK * RATE && i < CLICK * RATE + 8 ? 0.9 : 0));
  const student = placed(played(take), zero + score.countIn, length);
  if (bleed === undefined) return withGap(mixed(student, hiss, click), gap);
  const band = inRoom(placed(score, zero + score.countIn, length), {
    rate: RATE,
    seconds: 0.3,
    direct: 3,
    seed: "quay",
  });
  return withGap(mixed(student, levelled(band, student, bleed), hiss, click), gap);
}

/** Exact zeros in place of some seconds of the take, counted from the count-in. */
function withGap(samples: Float32Array, gap: { readonly from: number; readonly to: number } | undefined): Float32Array {
  const zero = CLICK + UNTIL_COUNT_IN;
  return gap === undefined
    ? samples
    : samples.fill(0, Math.round((zero + gap.from) * RATE), Math.round((zero + gap.to) * RATE));
}

/** The lead's notes at the times of a take, in a score of nothing else. */
function played({ onsets }: Take): Score {
  const lead = scores[1]!.parts.find(({ name }) => name === "lead")!;
  const notes = onsets.map((onset) => {
    const at = (typeof onset === "number" ? onset : onset.at) - score.countIn;
    const nearest = lead.notes.reduce((a, b) => (Math.abs(b.at - at) < Math.abs(a.at - at) ? b : a));
    return { ...nearest, at, seconds: Math.min(nearest.seconds, 0.25) };
  });
  return { ...score, countIn: 0, dropouts: [], parts: [{ ...lead, notes: notes.sort((a, b) => a.at - b.at) }] };
}

function placed(sounding: Score, downbeat: number, length: number): Float32Array {
  const made = renderSound(sounding);
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  const [left, right] = made.value.channels;
  const out = new Float32Array(length);
  const shift = Math.round(downbeat * RATE) - made.value.downbeat;
  for (let i = 0; i < left!.length && i + shift < length; i++)
    if (i + shift >= 0) out[i + shift] = (left![i]! + right![i]!) / 2;
  return out;
}
