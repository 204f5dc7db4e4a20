import type { Problem } from "../../base/index.js";
import type { SoundFormat } from "./soundFormat.js";
import type { SoundStream } from "./soundStream.js";

/** A sound file that could be opened. */
export interface Recording {
  readonly format: SoundFormat;
  /** Its sound, decoded while it is read; can be gone through once. It ends where decoding ends, and throws nothing of what is wrong inside. */
  readonly sound: SoundStream;
  /**
   * What was found so far, advice at opening included; complete when `sound` has been gone through. An error among them means that what was
   * heard must not be used.
   */
  readonly problems: () => readonly Problem[];
}

/** Takes down what is wrong with a recording while it is read. */
export type Report = (problem: Problem) => void;
