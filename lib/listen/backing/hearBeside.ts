import type { InstrumentFamily } from "../families.js";
import { findOnsets, type HeardOnset, type HeardOnsets } from "../onsets.js";
import type { SoundStream } from "../sound.js";
import type { BackingFound, OpenSound } from "./findBacking.js";
import { maskedListening } from "./mask.js";
import { measurePath } from "./path.js";
import { leftOf, separated } from "./subtract.js";
import { type CoveredStretch, decideOnsets } from "./undecidable.js";

/** What was heard of a player beside a backing. */
export interface HeardBeside {
  readonly heard: HeardOnsets;
  readonly undecidable: readonly CoveredStretch[];
  /** How loud the backing was beside everything else, dB; `undefined` when either is silent. */
  readonly bleedDb: number | undefined;
  /** The recording again, without the backing. */
  readonly open: () => SoundStream;
}

/**
 * The onsets of a player in a recording in which a backing sounds too, found where `place` says: the backing is subtracted along the path
 * from loudspeaker to phone, what is left of it is masked, and onsets it could have made by itself are left out.
 */
export async function hearBeside(
  recording: OpenSound,
  backing: OpenSound,
  { place, family }: { place: BackingFound; family: InstrumentFamily },
): Promise<HeardBeside> {
  const path = await measurePath(recording, backing, place);
  const masked = path === undefined ? undefined : await maskedListening(recording, backing, { alignment: place, path });
  if (path === undefined || masked === undefined)
    return { heard: { onsets: [], noiseMs: 0, seconds: 0 }, undecidable: [], bleedDb: undefined, open: recording };
  const all = await findOnsets(masked.stream, { family, masking: masked.masking });
  const { onsets, undecidable } = decideOnsets<HeardOnset>(all.onsets, masked.frames);
  return {
    heard: { ...all, onsets },
    undecidable,
    bleedDb: masked.bleed(),
    open: () => leftOf(separated(recording, backing, { alignment: place, path })),
  };
}
