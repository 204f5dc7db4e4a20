import type { Take } from "../schema/index.js";
import type { BackingPlace } from "./backing/index.js";
import type { HeardOnset } from "./onset/heardOnset.js";

/** A take that was heard, and how. */
export interface SoundTake {
  readonly take: Take;
  /** The onsets of the take, in order, as they were heard in the recording: seconds from its first sample. */
  readonly onsets: readonly HeardOnset[];
  /** Length of the recording. */
  readonly seconds: number;
  /** Where the backing is, when one was given. */
  readonly backing?: BackingPlace;
  /** How loud the backing is beside everything else, dB. */
  readonly bleedDb?: number;
  /** Onsets that were heard and are not the player's: speech, another instrument. 0 without a score. */
  readonly others: number;
  /** Where nobody can say whether a note began, seconds of the take; with the bars when a score was given. */
  readonly undecidable: readonly { readonly from: number; readonly to: number; readonly bars?: readonly number[] }[];
}
