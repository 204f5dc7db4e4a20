// Generated from lib/words/catalogues by `npm run words`; change the catalogue instead.

import type { MessageParameters } from "./parameters.js";

/** Messages with words of the note line. */
export const NOTE_WORDS: Readonly<Record<string, readonly MessageParameters["note-word.is"]["word"][]>> = {
  "pattern-problem.bar-empty-remedy": ["rest", "same"],
  "pattern-problem.pickup-missing-remedy": ["rest"],
  "pattern-problem.note-past-bar-line-remedy": ["tie"],
  "pattern-problem.pickup-length-differs-remedy": ["rest"],
  "pattern-problem.note-not-read": ["tie"],
  "pattern-problem.note-not-read-remedy-number": ["tuplet"],
  "pattern-problem.former-spelling-remedy-then-tie": ["tie"],
};
