import type { Problem } from "../problem.js";
import type { SoundFormat } from "./format/index.js";
import type { SoundStream } from "./soundStream.js";

/** A sound file that could be opened. */
export interface Recording {
  readonly format: SoundFormat;
  /** Its sound, decoded as it is consumed; it can be consumed once. It ends where decoding ends, and does not throw for a broken file. */
  readonly sound: SoundStream;
  /**
   * Problems found so far, advice at opening included; complete after `sound` was consumed. An error among them means that the sound must not
   * be used.
   */
  readonly problems: () => readonly Problem[];
}

/** Records a problem of a recording during decoding. */
export type Report = (problem: Problem) => void;
