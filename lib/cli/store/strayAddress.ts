/** `NAME:PASSWORD@` without what should stand before it; one letter would be a drive of Windows. */
const BARE = /^[^/\\:]{2,}:.*@/s;
/** A password as in `host=... password=...`. */
const NAMED = /(?:^|\s)password\s*=/i;
/** An address of PostgreSQL, or of another kind with a user and a password; pages on the web are none. */
const WHOLE = /postgres(?:ql)?:\/|(?<![a-z0-9+.-])(?!https?:)[a-z][a-z0-9+.-]*:\/\/.*:.*@/is;

/** Whether what should be a file seems to be the address of a database with its beginning missing, or in another form: it may hold a password. */
export function isBrokenAddress(place: string): boolean {
  return BARE.test(place) || NAMED.test(place);
}

/**
 * Whether the address of a database stands somewhere else than behind `--store`, where it would be taken for a file, a name or an option, and
 * repeated with its password in a message that there is no such thing.
 */
export function hasStrayAddress(words: readonly string[]): boolean {
  return words.some(
    (word, i) => words[i - 1] !== "--store" && !word.startsWith("--store=") && (WHOLE.test(word) || NAMED.test(word)),
  );
}
