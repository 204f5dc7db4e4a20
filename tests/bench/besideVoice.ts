/** Takes of a shipped course whose truth is known, recorded while somebody speaks, and what is judged of them. */
import { readFileSync } from "node:fs";
import type { BasicSoundBank } from "spessasynth_core";
import { readCurriculum } from "../../lib/curriculum/index.js";
import { rungs, scoreOf } from "../../lib/drill/index.js";
import { takeFromSound } from "../../lib/listen/index.js";
import type { Score } from "../../lib/schema/index.js";
import { assess } from "../../lib/take/index.js";
import { streamOf } from "./hearers.js";
import { withBleed } from "./soundConditions.js";
import { RATE, riffTake } from "./soundTakes.js";
import { speech } from "./speech.js";

export const BANK = "/usr/share/sounds/sf3/FluidR3Mono_GM.sf3";
/** General MIDI programs that play the riff where it is written, and how their notes begin. */
export const SPOKEN_BESIDE = [
  { name: "trumpet", program: 57, family: "blown" },
  { name: "piano", program: 1, family: "plucked" },
  { name: "alto saxophone", program: 66, family: "blown" },
  { name: "guitar", program: 26, family: "plucked" },
  { name: "clarinet", program: 72, family: "blown" },
  { name: "flute", program: 74, family: "blown" },
  { name: "trombone", program: 58, family: "blown" },
] as const;
const DRILLS = ["half-bar", "one-bar", "two-bars"];
const COURSE = new URL("../../curricula/quayside-first-course.yaml", import.meta.url);

/** The first rung of a drill of the shipped course. */
export function riffScore(run: number): Score {
  const course = readCurriculum(readFileSync(COURSE, "utf8"), { file: COURSE.pathname, readFile: () => undefined });
  const drill = course.ok && course.value.drills.find(({ name }) => name === DRILLS[run % DRILLS.length]);
  if (!drill) throw new Error("the shipped course cannot be read");
  return scoreOf(rungs(drill).at(0));
}

/** What is heard in samples and judged. */
export async function judged(samples: Float32Array, score: Score, of: { family: "blown" | "plucked"; start: number }) {
  const heard = await takeFromSound(() => streamOf(samples, RATE), { ...of, score });
  if (!heard.ok) throw new Error(heard.problems.map(({ message }) => message).join("; "));
  return { heard, finding: assess(score, heard.value.take) };
}

export interface JudgedSilences {
  readonly silences: number;
  readonly judged: number;
  /** `within` though drift is over 1.5 times the limit, `beyond` though it is under two thirds. */
  readonly wrong: number;
  readonly reasons: readonly string[];
}

/** A take judged beside a voice so many decibels below it, by root mean squares; without a voice when left out. */
export async function besideVoice(
  bank: BasicSoundBank,
  { program, family }: (typeof SPOKEN_BESIDE)[number],
  { run, seed, below }: { readonly run: number; readonly seed: string; readonly below: number | undefined },
): Promise<JudgedSilences> {
  const score = riffScore(run);
  const take = riffTake(bank, program, { score, grade: run % 2 === 0 ? "able" : "seasoned", seed });
  const samples =
    below === undefined ? take.samples : withBleed(take.samples, speech(take.samples.length / RATE, RATE, seed), below);
  const { finding } = await judged(samples, score, { family, start: take.zero - score.countIn });
  const { driftPercent = Infinity, driftMs = Infinity } = score.tolerance;
  const wrong = finding.dropouts.filter(({ verdict, from, to }, index) => {
    const share = Math.abs(take.played.truth.driftMs[index]!) / Math.min(driftMs, driftPercent * 10 * (to - from));
    return (verdict === "within" && share > 1.5) || (verdict === "beyond" && share < 2 / 3);
  });
  return {
    silences: finding.dropouts.length,
    judged: finding.dropouts.filter(({ verdict }) => verdict !== "unclear").length,
    wrong: wrong.length,
    reasons: finding.reasons.map(({ code }) => code),
  };
}
