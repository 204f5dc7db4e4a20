import { type Result, success } from "../../base/index.js";
import type { SoundStream } from "../../formats/index.js";
import { type InstrumentFamily, liveTake, type SoundTake } from "../../listen/index.js";
import type { ReadyRecording } from "../../recording/index.js";
import { recordedPieces, renderSound } from "../../render/sound/index.js";
import type { Finding, PlayedOnset, Score, Take } from "../../schema/index.js";
import { type AssessOptions, adviceOf, assess, type Following, follow } from "../../take/index.js";

/** What is listened to, as plain data, so that it can be sent to a worker. */
export interface HearingTerms {
  readonly score: Score;
  /** What is known of the take beforehand; times of its notes count from the count-in. */
  readonly take: Omit<Take, "onsets">;
  readonly assess: AssessOptions;
  /** Of a microphone: how its sound is heard; left out for taps and MIDI. */
  readonly sound?: {
    readonly family: InstrumentFamily;
    /** Seconds of the sound at which the count-in is heard. */
    readonly start: number;
    /** Whether the band is in the room and has to be taken out. */
    readonly beside: boolean;
    /** What the band plays of recordings. */
    readonly recordings: readonly ReadyRecording[];
  };
}

/** A take and what it shows, before anything is said of the browser. */
export interface HeardTake {
  readonly take: Take;
  readonly finding: Finding;
  /** Seconds of the sound at which the count-in was heard; left out for taps and MIDI. */
  readonly zero?: number;
}

/** Hears a take while it is played, here or in a worker. */
export interface Hearing {
  push(block: { readonly rate: number; readonly samples: Float32Array }): void;
  note(note: PlayedOnset): void;
  /** Nothing more has been played up to here, seconds from the count-in. */
  now(at: number): void;
  finish(advice: Take["advice"]): Promise<Result<HeardTake>>;
  close(): void;
}

/** Hears a take in this thread. A note that comes out of order is not followed, and counts in the end all the same. */
export function hearHere(terms: HearingTerms, tell: (following: Following) => void): Hearing {
  const { score, sound } = terms;
  const take: Omit<Take, "onsets"> = { version: 1, zero: "count-in", ...terms.take };
  const follower = follow(score, take, terms.assess);
  const played: PlayedOnset[] = [];
  let last = Number.NEGATIVE_INFINITY;
  const note = (onset: PlayedOnset): void => {
    played.push(onset);
    if (onset.at < last) return;
    last = onset.at;
    tell(follower.play(onset));
  };
  const backing = sound?.beside === true ? backingOf(score, sound.recordings) : undefined;
  const { latencyMs, latencyStandardErrorMs, id } = take;
  const live =
    sound &&
    liveTake({
      family: sound.family,
      start: sound.start,
      score,
      ...(backing ?? {}),
      ...(latencyMs === undefined ? {} : { latencyMs }),
      ...(latencyStandardErrorMs === undefined ? {} : { latencyStandardErrorMs }),
      ...(id === undefined ? {} : { id }),
      onNote: note,
    });
  return {
    push: ({ rate, samples }) => live?.push({ rate, channels: [samples] }),
    note,
    now: (at) => tell(follower.now(at)),
    finish: async (advice = []) => {
      const heard = await live?.finish();
      if (heard !== undefined && !heard.ok) return heard;
      const all = [...advice, ...(heard?.advice ?? []).map(adviceOf)];
      const whole: Take = {
        ...take,
        ...(heard === undefined ? { onsets: played } : heard.value.take),
        ...(all.length === 0 ? {} : { advice: all }),
      };
      const zero = heard && sound && zeroOf(heard.value, sound.start, backing?.backingZero);
      const finding = assess(score, whole, terms.assess);
      return success({ take: whole, finding, ...(zero === undefined ? {} : { zero }) }, heard?.advice);
    },
    close: () => undefined,
  };
}

/** Where the count-in is in the sound: by the band, if that was heard in it. */
function zeroOf({ backing }: SoundTake, start: number, backingZero = 0): number {
  return backing?.found === true ? backing.start + backingZero : start;
}

/** What the player plays of a score, as one channel: of a part whose recordings it has not, the notes. */
function backingOf(
  score: Score,
  recordings: readonly ReadyRecording[],
): { readonly backing: () => SoundStream; readonly backingZero: number } | undefined {
  const recorded = recordedPieces(score, recordings);
  const parts = score.parts.map(({ recorded: stretches, ...part }) =>
    stretches !== undefined && recorded.has(part.name) ? { ...part, recorded: stretches } : part,
  );
  const made = renderSound({ ...score, parts }, { rate: recordings[0]?.rate ?? 44100, recordings });
  if (!made.ok) return undefined;
  const { rate, channels, downbeat } = made.value;
  const [left, right] = channels;
  const samples = Float32Array.from(left!, (value, i) => (value + right![i]!) / 2);
  return {
    backing: async function* () {
      yield { rate, channels: [samples] };
    },
    backingZero: downbeat / rate - score.countIn,
  };
}
