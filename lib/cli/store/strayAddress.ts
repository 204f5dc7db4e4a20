/** `NAME:PASSWORD@` without a scheme before it; one letter would be a drive of Windows. */
const BARE = /^[^/\\:]{2,}:.*@/s;
/** A password as in `host=... password=...`. */
const NAMED = /(?:^|\s)password\s*=/i;
/** An address of PostgreSQL, or another with a user and a password; not a web page. */
const WHOLE = /postgres(?:ql)?:\/|(?<![a-z0-9+.-])(?!https?:)[a-z][a-z0-9+.-]*:\/\/.*:.*@/is;

/** Whether a file name looks like the address of a database, also without its beginning or in another form. It may contain a password. */
export function isBrokenAddress(place: string): boolean {
  return BARE.test(place) || NAMED.test(place);
}

/**
 * Whether the address of a database is anywhere but after `--store`. There it would be read as a file, a name or an option, and a message that
 * it does not exist would repeat it with its password.
 */
export function hasStrayAddress(words: readonly string[]): boolean {
  return words.some(
    (word, i) => words[i - 1] !== "--store" && !word.startsWith("--store=") && (WHOLE.test(word) || NAMED.test(word)),
  );
}
