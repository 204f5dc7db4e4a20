import type { Pattern } from "../pattern/index.js";
import type { Does, Drill, Settings } from "./model.js";
import type { Stretch } from "./stretch.js";
import type { TakeBar } from "./takeBars.js";
import type { TakeTime } from "./takeTime.js";

/** Everything the pieces of a score are written from; positions in whole notes from the downbeat of bar 1. */
export interface TakeContext {
  readonly drill: Drill;
  readonly settings: Settings;
  /** The drill's pattern in the rung's key. */
  readonly pattern: Pattern;
  readonly bars: readonly TakeBar[];
  readonly time: TakeTime;
  readonly does: ReadonlyMap<string, Does>;
  readonly silences: readonly Stretch[];
  readonly open: readonly Stretch[];
}
