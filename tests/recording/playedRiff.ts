import { toNumber } from "../../lib/base/index.js";
import { type Drill, rungs, scoreOf } from "../../lib/drill/index.js";
import type { SoundStream } from "../../lib/formats/sound/index.js";
import { midiNumber, type Note } from "../../lib/pattern/index.js";
import { renderSound, type Sound, type SoundBank } from "../../lib/render/sound/index.js";
import type { Score } from "../../lib/schema/index.js";
import { barLength, beatOf } from "../../lib/time/index.js";

/** The riff of a drill played alone, once through, and what it is as written. */
export interface PlayedRiff {
  readonly sound: Sound;
  readonly stream: () => SoundStream;
  readonly tempo: number;
  /** In whole notes. */
  readonly beat: number;
  readonly bar: number;
  readonly starts: number;
  readonly isSwung: boolean;
  readonly notes: readonly { readonly position: number; readonly length: number; readonly pitch: number | undefined }[];
}

/** `undefined` for a drill whose student plays no written notes alone. */
export function playedRiff(
  drill: Drill,
  { instrument, bank }: { readonly instrument?: string; readonly bank?: SoundBank | undefined } = {},
): PlayedRiff | undefined {
  const rung = rungs(drill).at(0);
  const score = drill.mixes
    .map(({ name }) => scoreOf(rung, name))
    .find(({ parts }) => parts.some(({ student, does }) => student && does !== "off"));
  const part = score?.parts.find(({ student }) => student);
  if (score === undefined || part === undefined || score.tempo === undefined) return undefined;
  const { pattern } = drill;
  const variants = pattern.parts.find(({ name }) => name === part.name)!.variants;
  const written = variants[rung.settings.variant ?? ""] ?? variants[""] ?? Object.values(variants)[0]!;
  const end = score.bars.find(({ phrase }) => phrase === 2)?.at ?? score.duration;
  const notes = part.notes.filter(({ at }) => at >= -1e-9 && at < end - 1e-6);
  const alone: Score = {
    ...score,
    countIn: 0,
    dropouts: [],
    parts: [{ ...part, ...(instrument && { instrument }), does: "plays", notes }],
  };
  const made = renderSound(alone, { rate: 44100, ...(bank && { bank }) });
  if (!made.ok) throw new Error(made.problems[0]!.message);
  const sound = made.value;
  const { meter } = pattern.bars[0]!;
  return {
    sound,
    stream: () => streamOf(sound),
    tempo: score.tempo,
    beat: toNumber(drill.beat ?? beatOf(meter)),
    bar: toNumber(barLength(meter)),
    starts: sound.downbeat / sound.rate,
    isSwung: pattern.swing !== undefined,
    notes: written.filter(({ position }) => toNumber(position) >= 0).map(asWritten),
  };
}

function asWritten({ position, length, pitch }: Note): PlayedRiff["notes"][number] {
  return { position: toNumber(position), length: toNumber(length), pitch: pitch && midiNumber(pitch) };
}

async function* streamOf({ rate, channels }: Sound): SoundStream {
  yield { rate, channels };
}
