/**
 * How much a curriculum may hold. All are our choice: about ten times what a course of a hundred drills needs, and little enough
 * that whatever is written inside them is read, or refused, in well under a second and 200 MB.
 */

/** Characters (UTF-16 code units) of the YAML text. */
export const LARGEST_TEXT: number = 262_144;
/** Pieces (words, signs, spaces, line ends) the YAML falls into. */
export const MOST_TOKENS: number = 60_000;
/** Levels of nesting; a curriculum needs 8. */
export const DEEPEST: number = 32;
/** Values and characters after every alias has been written out. */
export const LARGEST_EXPANSION: number = 393_216;
/** YAML syntax errors reported; those after the first few are mostly echoes of the first. */
export const MOST_SYNTAX_ERRORS: number = 20;
/** Problems kept of one curriculum while it is read, so that a text full of them is answered in time. */
export const MOST_KEPT: number = 10_000;
/** Problems reported of one curriculum. */
export const MOST_PROBLEMS: number = 500;
/** Bytes of one MIDI or MusicXML file. */
export const LARGEST_FILE: number = 1_048_576;
/** Bytes of all files together, each counted as often as it is named. */
export const LARGEST_FILES: number = 4_194_304;
/** Notes of all patterns together, variants and repeated bars included. */
export const MOST_NOTES: number = 60_000;
/** Notes of one pattern. */
export const MOST_NOTES_IN_PATTERN: number = 20_000;
/** Units of work (see `workOf`) in all drills together; a hundred ordinary drills need about 300,000. */
export const MOST_WORK: number = 4_000_000;
