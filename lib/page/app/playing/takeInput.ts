import type { Result } from "../../../base/index.js";
import { beginTake, type Input, type Microphone, type ScorePlayer, type TakeInHand } from "../../../browser/index.js";
import { ASSUMED_FAMILY, familyOfInstrument, familyOfPart } from "../../../listen/index.js";
import type { Score } from "../../../schema/index.js";
import type { Student } from "../state/students.js";
import { hearingAddress, measuredDevices } from "./hands.js";

export interface TakeFrom {
  readonly player: ScorePlayer;
  readonly score: Score;
  readonly student: Student;
  readonly input: Input | Microphone;
  /** The take's name. */
  readonly id: string;
}

/** Begins a take of a student: the score is played, and their input is heard. */
export function takeInput({ player, score, student, input, id }: TakeFrom): Promise<Result<TakeInHand>> {
  const latency = measuredDevices().of(input.kind, input.device);
  return beginTake({
    player,
    score,
    input,
    headphones: student.hears === "headphones",
    family: familyOfInstrument(student.reader) ?? familyOfPart({ score }) ?? ASSUMED_FAMILY,
    hearing: hearingAddress(),
    id,
    played: new Date().toISOString(),
    ...(latency === undefined ? {} : { latency }),
  });
}
