import type { InstrumentFamily } from "../../listen/index.js";
import type { DraftOptions } from "../../recording/index.js";
import type { Meter } from "../../time/index.js";

/** Note values of a grid, and how many of them make a whole note. */
export const GRIDS = { "1/4": 4, "1/8": 8, "1/16": 16, "1/32": 32 } as const;

/** What a draft was made of. */
export interface Drafting {
  readonly file: string;
  readonly instrument: string | undefined;
  readonly family: InstrumentFamily | "midi";
  readonly meter: Meter;
  readonly grid: keyof typeof GRIDS;
  readonly key: string;
  readonly options: DraftOptions;
}
