// Generated from lib/words/catalogues by `npm run words`; change the catalogue instead.

/** Names that words of the note line have among the explanations. */
export type NoteWord = "dots" | "rest" | "same" | "tie" | "tuplet";

/** Messages with words of the note line. */
export const NOTE_WORDS: Readonly<Record<string, readonly NoteWord[]>> = {
  "pattern-problem.bar-empty-remedy": ["rest", "same"],
  "pattern-problem.pickup-missing-remedy": ["rest"],
  "pattern-problem.note-past-bar-line-remedy": ["tie"],
  "pattern-problem.pickup-length-differs-remedy": ["rest"],
  "pattern-problem.slur-without-note-remedy": ["same", "dots"],
  "pattern-problem.slur-on-one-pitch-remedy": ["tie"],
  "pattern-problem.note-not-read": ["tie"],
  "pattern-problem.note-not-read-remedy-tie-or-mark": ["tie"],
  "pattern-problem.note-not-read-remedy-number": ["tuplet"],
  "pattern-problem.former-spelling-remedy-then-tie": ["tie"],
};
