import type { Rung } from "../../../drill/index.js";

/** What is to be played, and where on the page. */
export interface PlayRequest {
  readonly rung: Rung;
  readonly mix: string;
  /** A phrase to repeat, from 1; the whole take when left out. */
  readonly phrase: number | undefined;
  /** Whether takes are to find the student's rung. */
  readonly placing: boolean;
  /** What the playing screen takes the place of, and what stands there again afterwards. */
  readonly body: HTMLElement;
  readonly back: readonly Node[];
}
