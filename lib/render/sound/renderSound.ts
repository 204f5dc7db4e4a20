import { failure, success } from "../../base/index.js";
import type { Score } from "../../schema/index.js";
import type { Result } from "../problem.js";
import { soundProblem } from "./codes.js";
import { fadeOut } from "./fade.js";
import { normalise, USUAL_LOUDNESS, USUAL_PEAK } from "./level/normalise.js";
import { folded, onceRound } from "./loop.js";
import type { Sound, SoundOptions } from "./model.js";
import { playRecorded, recordingsMissing } from "./playRecorded.js";
import { lackingIn, playBank } from "./playSoundBank.js";
import { sayProblem } from "./say.js";
import { timeline } from "./timeline.js";
import { type Bus, playBuiltIn, playClicks } from "./voices/playBuiltIn.js";

/** Longest take, in seconds: our choice; takes last minutes, and this length needs half a gigabyte of memory. */
const LONGEST = 1800;

/**
 * Renders a score as sound: the count-in and every part that sounds, with their silences. Then the loudness of the whole is normalised.
 *
 * Every note begins on the sample nearest to its time, counted from the sample of the downbeat of bar 1 (`downbeat`). A sound that still rings
 * when its part falls silent fades out within 8 ms and does not return with the part. The same score and options give the same samples. Time
 * and memory are proportional to the length of the take.
 *
 * With `loop` it is so many phrases that follow on themselves without a seam, sample for sample.
 *
 * Recordings sound in place of the notes of their parts, as loud as the built-in voices, and must be given.
 *
 * Problems: SOUND_TOO_LONG for more than half an hour, RECORDED_PART_NOT_GIVEN. Throws `RangeError` for options outside their range, and for a loop of phrases that the score does not have.
 *
 * @example
 * const made = renderSound(scoreOf(rungs(drill).at(0)), { rate: 48000 });
 * if (made.ok) made.value.downbeat / made.value.rate; // seconds before bar 1
 */
export function renderSound(score: Score, options: SoundOptions = {}): Result<Sound> {
  const { rate = 44100, loudness = USUAL_LOUDNESS, peak = USUAL_PEAK, bank, loop, recordings = [] } = options;
  if (rate !== 44100 && rate !== 48000) throw new RangeError(`rate is 44100 or 48000, got ${String(rate)}`);
  if (!(loudness >= -40 && loudness <= -10))
    throw new RangeError(`loudness lies from -40 to -10 LUFS, got ${loudness}`);
  if (!(peak >= -20 && peak <= -1)) throw new RangeError(`peak lies from -20 to -1 dBTP, got ${peak}`);
  const seconds = score.countIn + score.duration;
  if (!(seconds <= LONGEST)) {
    const lengths = { most: String(LONGEST), found: String(Math.ceil(seconds)) };
    const message = sayProblem("sound-problem.sound-too-long", lengths);
    return failure(soundProblem("SOUND_TOO_LONG", message, {}, sayProblem("sound-problem.sound-too-long-remedy")));
  }
  const missing = recordingsMissing(score, recordings);
  if (missing.length > 0) return failure(...missing);
  const round = loop === undefined ? undefined : onceRound(score, loop.phrases);
  const played = round?.score ?? score;
  const line = timeline(played, rate);
  const mixed: Bus = [new Float32Array(line.length), new Float32Array(line.length)];
  playClicks(mixed, line);
  const tracks = line.tracks.filter(({ name }) => !isRecorded(score, name));
  for (const track of tracks) {
    if (bank === undefined) playBuiltIn(mixed, track, line);
    else playBank(mixed, track, { timeline: line, bank });
  }
  const length = Math.round((round?.end ?? 0) * rate);
  playRecorded(mixed, played, { line, ready: recordings, round: round === undefined ? undefined : length });
  const channels =
    round === undefined
      ? mixed
      : ([
          folded(mixed[0], { from: line.downbeat, length }),
          folded(mixed[1], { from: line.downbeat, length }),
        ] as const);
  if (round === undefined) fadeOut(channels, rate);
  const advice = bank === undefined ? [] : tracks.flatMap((track) => lackingIn(bank, track));
  const level = normalise(channels, { rate, loudness, peak });
  return success({ rate, channels, downbeat: round === undefined ? line.downbeat : 0, ...level, advice }, advice);
}

function isRecorded({ parts }: Score, name: string): boolean {
  return parts.some((part) => part.name === name && part.recorded !== undefined);
}
