import type { SoundStream } from "../../formats/sound/index.js";

/** Seconds of a piece of which the loudness is taken. */
const PIECE = 0.005;
/** Seconds after its beginning in which a note is loudest. */
const SPEAKS = 0.15;
/** What is left of a note, as a share of its loudest, when it has ended; our choice, 20 dB below. */
const ENDED = 0.1;
/** For how long it must be, seconds: a tone that beats is softer for a moment. */
const LASTING = 0.03;

/**
 * When each note ends, seconds, as far as loudness tells: where it has fallen by 20 dB from its loudest, and with the next note at the latest. `onsets` are seconds in order; the stream is read once.
 */
export async function noteEnds(stream: SoundStream, onsets: readonly number[]): Promise<readonly number[]> {
  const levels = await levelsOf(stream);
  const lasting = Math.round(LASTING / PIECE);
  return onsets.map((at, i) => {
    const next = onsets[i + 1] ?? levels.length * PIECE;
    const [from, to] = [Math.floor(at / PIECE), Math.min(levels.length, Math.ceil(next / PIECE))];
    const spoken = Math.min(to, from + Math.round(SPEAKS / PIECE));
    let [loudest, top] = [0, from];
    for (let k = from; k < spoken; k++) if (levels[k]! > loudest) [loudest, top] = [levels[k]!, k];
    let soft = 0;
    for (let k = top; k < to; k++) {
      soft = levels[k]! < ENDED * loudest ? soft + 1 : 0;
      if (soft === lasting) return (k - lasting + 1) * PIECE;
    }
    // Soft to the very end.
    return soft > 0 && to === levels.length ? (to - soft) * PIECE : next;
  });
}

/** The loudness of a recording in pieces of 5 ms: root mean square of all channels. */
async function levelsOf(stream: SoundStream): Promise<readonly number[]> {
  const levels: number[] = [];
  let [sum, count, seconds] = [0, 0, 0];
  for await (const { rate, channels } of stream)
    for (let i = 0; i < channels[0]!.length; i++) {
      for (const samples of channels) sum += samples[i]! ** 2 / channels.length;
      count += 1;
      seconds += 1 / rate;
      if (seconds < (levels.length + 1) * PIECE) continue;
      levels.push(Math.sqrt(sum / count));
      [sum, count] = [0, 0];
    }
  return levels;
}
