import { failure, type Problem, type Result, success } from "../../../base/index.js";
import type { Input, InputNote, Player, TakeHeard, TakeInHand } from "../../../browser/index.js";
import type { Score, Take } from "../../../schema/index.js";
import { assess } from "../../../take/index.js";
import type { Student } from "../state/students.js";

export interface TakeNotes {
  readonly player: Player;
  readonly score: Score;
  readonly student: Student;
  readonly input: Input;
  readonly id: string;
  readonly played: string;
}

/** Plays a score, and makes a take of the notes that come in until its end. Damage that stops it leaves nothing to judge. */
export async function takeNotes({
  player,
  score,
  input,
  id,
  played,
}: TakeNotes): Promise<Result<Pick<TakeInHand, "breakOff" | "heard">>> {
  const notes: InputNote[] = [];
  const ends = [input.onNote((note) => void notes.push(note))];
  const started = await player.play({ mix: score.mix });
  if (!started.ok) return started;
  const barOne = started.value.at - started.value.from;
  const { promise: heard, resolve } = withResolver<Result<TakeHeard>>();
  const end = (result: Result<TakeHeard>): void => {
    for (const each of ends) each();
    resolve(result);
  };
  const damages: { problem: Problem; stops: boolean }[] = [];
  ends.push(
    player.onEvent((event) => {
      if (event.kind === "damaged") damages.push(event.damage);
      if (event.kind === "damaged" && event.damage.stops) end(failure(event.damage.problem));
      if (event.kind === "ended") end(success(takeHeard()));
    }),
  );
  const takeHeard = (): TakeHeard => {
    const onsets = notes.map(({ at }) => Math.round((at - barOne) * 1e5) / 1e5).filter((at) => at > -score.countIn);
    const advice = damages.map(({ problem }) => ({ ...problem, severity: "advice" as const }));
    const take: Take = {
      id,
      onsets,
      zero: "bar-1",
      drill: score.drill,
      rung: score.rung,
      mix: score.mix,
      played,
      ...(score.draw === undefined ? {} : { draw: score.draw }),
      ...(advice.length === 0 ? {} : { advice: advice as unknown as NonNullable<Take["advice"]> }),
    };
    return { take, finding: assess(score, take), damage: player.damage, advice, sound: undefined };
  };
  return success({
    heard,
    breakOff: () => {
      player.stop();
      end(failure());
    },
  });
}

function withResolver<Value>(): { promise: Promise<Value>; resolve: (value: Value) => void } {
  let resolve: (value: Value) => void = () => undefined;
  const promise = new Promise<Value>((settle) => {
    resolve = settle;
  });
  return { promise, resolve };
}
