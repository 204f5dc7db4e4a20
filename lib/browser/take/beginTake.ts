import { failure, type Problem, type Result, success } from "../../base/index.js";
import type { PlayedOnset, Score, Take } from "../../schema/index.js";
import { adviceOf, type Following } from "../../take/index.js";
import { type BrowserCode, browserProblem } from "../codes.js";
import type { Damage } from "../damage.js";
import type { Input, Microphone, TimedBlock } from "../input/model.js";
import { say } from "../say.js";
import { telling } from "../telling.js";
import { hearInWorker } from "./hearInWorker.js";
import type { HeardTake, Hearing, HearingTerms } from "./hearing.js";
import type { TakeHeard, TakeInHand, TakeOptions, TakeSound } from "./model.js";

/** Seconds between the beginning of the sound that is kept and the count-in: our choice, some blocks. */
const BEFORE = 0.3;
/** Seconds from the call to the count-in: our choice, for the worker to be there. */
const LEAD = 0.35;
/** Seconds after the last beat is heard in which a late note still counts; our choice, as a take ends with a landing well before. */
const AFTER = 0.1;
/** Delay of a microphone that nothing is known of, beyond the output's, seconds: our choice, for when a take is over only. */
const INPUT_LATE = 0.06;
/** Milliseconds between two looks at where the student is while no note comes. */
const LOOKS = 250;

/** The worker beside the library. */
function hearingFile(): URL {
  return new URL("./hearing.js", import.meta.url);
}

/**
 * Plays a score from its count-in and hears what is played to it; see `TakeInHand`. The player must have loaded the score's mix. It listens in a
 * worker, or in the page where none is allowed.
 *
 * Rejects with `TypeError` for a microphone without `family`. Problems of the start: SOUND_NOT_ALLOWED.
 *
 * @example
 * const begun = await beginTake({ player, score, input: taps, headphones: true, id: "evening-3" });
 * if (begun.ok) console.log((await begun.value.heard).ok);
 */
export async function beginTake(options: TakeOptions): Promise<Result<TakeInHand>> {
  const { player, score, input, latency, family } = options;
  const isMicrophone = input.kind === "microphone";
  if (isMicrophone && family === undefined)
    throw new TypeError("a microphone's take needs the family of its instrument");
  const { context, clock } = player;
  const following = telling<Following>();
  const damages = telling<Damage>();
  const begin = Math.max(options.at ?? 0, context.currentTime + LEAD);
  const soundFrom = Math.round((begin - BEFORE) * context.sampleRate);
  const { outputLatency } = clock;
  // A latency that was measured holds the output's. Without one, what is known of the output is not laid to the student.
  const known = latency === undefined && isMicrophone && outputLatency.known ? outputLatency.seconds : 0;
  const band = { beside: !options.headphones, recordings: options.headphones ? [] : player.recordings };
  const terms: HearingTerms = {
    score,
    take: named(options),
    assess: options.assess ?? {},
    ...(isMicrophone ? { sound: { family: family!, start: BEFORE + known, ...band } } : {}),
  };
  const hearing = await hearingFor(options, terms, following.tell);
  const started = await player.play({ mix: score.mix, at: begin, lead: "count-in", from: 0 });
  if (!started.ok) {
    hearing.close();
    return started;
  }
  // A start that had to wait moves everything by as much.
  const moved = started.value.at - begin;
  const zero = begin + moved;
  const barOne = zero + score.countIn;
  const late = (latency?.latencyMs ?? 1000 * (isMicrophone ? known + INPUT_LATE : 0)) / 1000;
  const end = barOne + score.duration + Math.max(0, late) + AFTER;
  const sound = isMicrophone ? soundFromFrame(soundFrom + Math.round(moved * context.sampleRate)) : undefined;
  const all: Damage[] = [];
  let finish: (result: Result<TakeHeard>) => void;
  const heard = new Promise<Result<TakeHeard>>((resolve) => {
    finish = resolve;
  });
  let isOver = false;
  const over = (): boolean => {
    const was = isOver;
    isOver = true;
    for (const leave of leaving) leave();
    return !was;
  };
  const broken = (problem: Problem): void => {
    if (!over()) return;
    hearing.close();
    player.stop();
    finish(failure(problem));
  };
  const harmed = (damage: Damage): void => {
    if (isOver) return;
    all.push(damage);
    damages.tell(damage);
    if (damage.stops) broken(damage.problem);
  };
  const complete = async (): Promise<void> => {
    if (!over()) return;
    const told = all.map(({ problem }) => adviceOf(problem));
    const result = await hearing.finish(told.length === 0 ? undefined : told);
    hearing.close();
    finish(result.ok ? success(heardOf(result.value, { all, advice: result.advice, sound, known, score })) : result);
  };
  const hidden = (): void => {
    if (document.hidden) harmed(hiddenAt(clock.heardAt()));
  };
  document.addEventListener("visibilitychange", hidden);
  const timer = setInterval(
    () => {
      const now = clock.heardAt();
      if (!isMicrophone) hearing.now(now - zero);
      if (!isMicrophone && now >= end) void complete();
    },
    isMicrophone ? LOOKS : LOOKS / 5,
  );
  const leaving: (() => void)[] = [
    () => document.removeEventListener("visibilitychange", hidden),
    () => clearInterval(timer),
    player.onEvent((event) => {
      if (event.kind === "damaged") harmed(event.damage);
      // Who stops or pauses the player breaks the take off.
      if (event.kind === "stopped" || event.kind === "paused") broken(brokenOff());
    }),
    input.onDamage((damage) => {
      if (damage.to >= zero) harmed(damage);
    }),
    listenTo(input, {
      note: ({ at, ...rest }) => hearing.note({ at: at - zero, ...rest }),
      block: (block) => {
        const kept = sound!.push(block);
        if (kept !== undefined) hearing.push({ rate: block.rate, samples: kept });
        if ((block.frame + block.samples.length) / block.rate >= end) void complete();
      },
    }),
  ];
  return success({
    barOne,
    onFollowing: following.on,
    onDamage: damages.on,
    breakOff: () => broken(brokenOff()),
    heard,
  });
}

async function hearingFor(
  { hearing = hearingFile() }: TakeOptions,
  terms: HearingTerms,
  tell: (following: Following) => void,
): Promise<Hearing> {
  const away = await hearInWorker(hearing, terms, tell);
  if (away !== undefined) return away;
  const { hearHere } = await import("./hearing.js");
  return hearHere(terms, tell);
}

/** What is known of a take before it is played. */
function named({ score, latency, id, student, played }: TakeOptions): Omit<Take, "onsets"> {
  return {
    version: 1,
    zero: "count-in",
    drill: score.drill!,
    rung: score.rung!,
    mix: score.mix!,
    ...(score.draw === undefined ? {} : { draw: score.draw }),
    ...(id === undefined ? {} : { id }),
    ...(student === undefined ? {} : { student }),
    ...(played === undefined ? {} : { played }),
    ...(latency === undefined
      ? {}
      : { latencyMs: latency.latencyMs, latencyStandardErrorMs: latency.latencyStandardErrorMs }),
  };
}

function listenTo(
  input: Input | Microphone,
  to: { readonly note: (note: PlayedOnset) => void; readonly block: (block: TimedBlock) => void },
): () => void {
  return "onBlock" in input ? input.onBlock(to.block) : input.onNote(to.note);
}

/** The sound of a take from a frame on. */
interface KeptSound {
  /** The samples of a block that are of the take; `undefined` when it lies before. */
  push(block: TimedBlock): Float32Array | undefined;
  whole(): { readonly rate: number; readonly samples: Float32Array };
}

function soundFromFrame(from: number): KeptSound {
  const blocks: Float32Array[] = [];
  let rate = 0;
  return {
    push: (block) => {
      rate = block.rate;
      const samples = block.samples.subarray(Math.max(0, from - block.frame));
      if (samples.length === 0) return undefined;
      // A take whose first block begins later, as a microphone that wakes up, keeps its clock.
      const missing = blocks.length === 0 ? Math.max(0, block.frame - from) : 0;
      const kept = new Float32Array(missing + samples.length);
      kept.set(samples, missing);
      blocks.push(kept);
      return kept;
    },
    whole: () => {
      const samples = new Float32Array(blocks.reduce((sum, { length }) => sum + length, 0));
      let at = 0;
      for (const block of blocks) {
        samples.set(block, at);
        at += block.length;
      }
      return { rate, samples };
    },
  };
}

function heardOf(
  { take, finding, zero }: HeardTake,
  {
    all,
    advice,
    sound,
    score,
  }: {
    readonly all: readonly Damage[];
    readonly advice: readonly Problem[];
    readonly sound: KeptSound | undefined;
    readonly known: number;
    readonly score: Score;
  },
): TakeHeard {
  const barOne = (zero ?? 0) + score.countIn + (take.latencyMs ?? 0) / 1000;
  const kept: TakeSound | undefined = sound && { ...sound.whole(), barOne };
  return { take, finding, damage: all, advice, sound: kept };
}

function brokenOff(): Problem<BrowserCode> {
  return browserProblem(
    "TAKE_BROKEN_OFF",
    say("browser.problem.take-broken-off"),
    {},
    say("browser.remedy.play-again"),
  );
}

function hiddenAt(at: number): Damage {
  const said = say("browser.problem.tab-hidden");
  const problem = browserProblem("TAB_HIDDEN", said, {}, say("browser.remedy.keep-in-front"));
  return { from: at, to: at, stops: true, problem };
}
