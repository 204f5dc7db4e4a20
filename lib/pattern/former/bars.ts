import { type Piece, piecesOf } from "../barLines.js";
import type { Frame } from "../compile/bars.js";

/** A line in the former spelling, cut at its bar lines. */
export interface FormerBars {
  /** The pick-up, when there is one, and the bars, in order. */
  readonly pieces: readonly Piece[];
  /** Number of the first piece: 0 for a pick-up. */
  readonly firstBar: 0 | 1;
  /** Whether the line began with a bar line. */
  readonly opens: boolean;
}

/**
 * The bars of a line in the former spelling. The first piece was the pick-up when the line had more pieces than the pattern has bars, or
 * when `fillsPickup` said so; a line without one left it out or began with a bar line.
 */
export function formerBars(line: string, frame: Frame, fillsPickup: (text: string) => boolean): FormerBars {
  const pieces = piecesOf(line);
  const opens = pieces.length > 1 && pieces[0]!.text === "";
  if (opens) pieces.shift();
  const takesPickup =
    frame.pickup.n > 0 && !opens && (pieces.length > frame.bars.length || fillsPickup(pieces[0]!.text));
  return { pieces, firstBar: takesPickup ? 0 : 1, opens };
}
