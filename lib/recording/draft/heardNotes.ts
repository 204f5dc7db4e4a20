import type { Result } from "../../base/index.js";
import { failure, success } from "../../base/index.js";
import { readMidiFile } from "../../formats/midi/index.js";
import type { SoundStream } from "../../formats/sound/index.js";
import { findOnsets, findPitches, type InstrumentFamily } from "../../listen/index.js";
import type { HeardNote } from "./model.js";
import { noteEnds } from "./noteEnds.js";

/** Weakest onset that is a note, as a share of what it takes to count: our choice, the click of a key or a breath is weaker than what was meant. */
const MEANT = 1;

/** How to listen to who plays. */
export interface PlayerHeard {
  /** How the notes begin on the instrument. */
  readonly family: InstrumentFamily;
  /** Whether they have pitches: of drums none is looked for. */
  readonly isPitched: boolean;
}

/**
 * The notes of a recording of one player: when they begin and end, and their pitches. Of what is struck no ends are told. `open` gives the sound from its beginning, and is called up to three times. Throws as
 * `listenFor` does.
 *
 * @example
 * const notes = await heardNotes(() => stream(), { family: "blown", isPitched: true });
 */
export async function heardNotes(
  open: () => SoundStream,
  { family, isPitched }: PlayerHeard,
): Promise<readonly HeardNote[]> {
  const { onsets } = await findOnsets(open(), { family });
  const meant = onsets.filter(({ strength }) => strength >= MEANT);
  const times = meant.map(({ at }) => Math.max(0, at));
  const pitches = isPitched ? await findPitches(open(), times) : [];
  const ends = family === "percussive" ? [] : await noteEnds(open(), times);
  return meant.map(({ at, noiseMs }, i) => {
    const pitch = pitches[i];
    return { at, noiseMs, end: ends[i], pitches: pitch === undefined ? [] : [pitch] };
  });
}

/**
 * The notes of a Standard MIDI File, of one track from 1, or of all tracks together; drums only where nothing else plays. None for a track that is not there. Problems: those of the file.
 *
 * @example
 * const notes = notesInMidi(bytes, { track: 2 });
 */
export function notesInMidi(
  bytes: Uint8Array,
  { track }: { readonly track?: number | undefined } = {},
): Result<readonly HeardNote[]> {
  const file = readMidiFile(bytes);
  if (!file.ok) return failure(...file.problems);
  const all = file.value.tracks
    .filter((_, index) => track === undefined || index === track - 1)
    .flatMap(({ notes }) => notes);
  const pitched = all.filter(({ channel }) => channel !== PERCUSSION_CHANNEL);
  const notes = pitched.length > 0 ? pitched : all;
  return success(
    notes.map(({ seconds, endSeconds, key, channel }) => ({
      at: seconds,
      noiseMs: 0,
      end: channel === PERCUSSION_CHANNEL ? undefined : endSeconds,
      pitches: channel === PERCUSSION_CHANNEL ? [] : [key],
    })),
  );
}

/** Channel 10, counted from 0 (General MIDI System Level 1). */
const PERCUSSION_CHANNEL = 9;
