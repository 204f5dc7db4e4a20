import { type Problem, type Result, resultOf } from "../../base/index.js";
import { decodeSound, type InstrumentFamily, type SoundStream, takeFromSound } from "../../listen/index.js";
import type { Score, Take } from "../../schema/index.js";
import { bytesHeld, type HeldSound } from "./heldSound.js";

/** What is to be heard: a recording and what was to be played. */
export interface HearingTask {
  readonly sound: HeldSound;
  readonly terms: HearingTerms;
}

export interface HearingTerms {
  readonly score: Score;
  readonly family: InstrumentFamily;
  /** Name of the take. */
  readonly id: string;
  /** Seconds of the recording at which the count-in begins; 0 when left out, with advice. */
  readonly start?: number;
  readonly latencyMs?: number;
}

/** What was heard in a recording. */
export interface HeardSound {
  readonly take: Take;
  /** Length of the recording. */
  readonly seconds: number;
}

/** Hears a recording that is held. Problems: those of `decodeSound` and `takeFromSound`; an error makes everything that was heard unusable. */
export async function hearSound({ sound, terms }: HearingTask): Promise<Result<HeardSound>> {
  const found = new Map<string, Problem>();
  const report = (problems: readonly Problem[]): void => {
    for (const each of problems) if (!found.has(each.code)) found.set(each.code, each);
  };
  const first = await decodeSound(bytesHeld(sound));
  if (!first.ok) return first;
  const open = async function* (): SoundStream {
    const again = await decodeSound(bytesHeld(sound));
    if (!again.ok) return report(again.problems);
    yield* again.value.sound;
    report(again.value.problems());
  };
  const heard = await takeFromSound(open, terms);
  if (!heard.ok) return heard;
  const { take, seconds } = heard.value;
  return resultOf({ take, seconds }, [...found.values(), ...heard.advice]);
}
