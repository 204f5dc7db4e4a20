import type { Drill } from "../../drill/index.js";

/** A player of a drill: an instrument, and the octaves by which the part is moved. */
export type Player = Drill["players"][number];

/**
 * Who reads a sheet: a player of the student's part; a part of the accompaniment, by its name; all parts at once; or nobody in particular, which
 * gives the student's part at concert pitch.
 */
export type SheetReader = Player | { readonly part: string } | "score" | undefined;

/** The player, where the sheet is one of the student's part; without one the part is at concert pitch. */
export function playerOf(reader: SheetReader): Player | undefined {
  return typeof reader === "object" && "instrument" in reader ? reader : undefined;
}

/** Whether a sheet is for those who accompany: of another part than the student's, or of all parts. */
export function isOfBand(reader: SheetReader): reader is { readonly part: string } | "score" {
  return reader === "score" || (typeof reader === "object" && "part" in reader);
}
