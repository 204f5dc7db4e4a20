/** An entry of a section of a course, a pattern or a drill, with its lines. Offsets into the YAML text. */
export interface Entry {
  /** Where the key of its section begins. */
  readonly section: number;
  /** Where its first line begins, and where the first line behind it does. */
  readonly from: number;
  readonly to: number;
}

/** A section: a key at the start of a line, with nothing behind it but a comment. */
const SECTION = /^[\p{L}_][\p{L}\p{N}_-]*:[ \t]*(?:[ \t]#.*)?\r?$/u;

/** What no key begins with: a line with it goes on with the entry before, and where no entry can be, the text is not cut. */
const GOES_ON = /^[-?:}\]#]/;

/**
 * The entries of the sections of a YAML text, by the indentation of their lines alone. A text that is well formed in the way of blocks is cut rightly: there,
 * what a key holds stands further in than the key. Whoever reads a piece makes sure that it is a mapping.
 */
export function entriesOf(text: string): readonly Entry[] {
  const entries: Entry[] = [];
  let section: number | undefined;
  let indent: number | undefined;
  let from: number | undefined;
  const close = (to: number): void => {
    if (section !== undefined && from !== undefined) entries.push({ section, from, to });
    from = undefined;
  };
  for (let start = 0, next = 0; start < text.length; start = next) {
    const end = text.indexOf("\n", start);
    next = end === -1 ? text.length : end + 1;
    let at = start;
    while (text[at] === " ") at += 1;
    // A line that begins with a tab is blank, or part of a text.
    if (text[at] === "\t" && from === undefined) return [];
    if (at >= next || /[\t\r\n#]/.test(text[at]!)) continue;
    if (at === start && GOES_ON.test(text[at]!) && !text.startsWith("---", at)) return [];
    if (at === start) {
      close(start);
      [section, indent] = [SECTION.test(text.slice(start, next).trimEnd()) ? start : undefined, undefined];
    } else if (section !== undefined) {
      indent ??= at - start;
      const goesOn = at - start !== indent || GOES_ON.test(text[at]!);
      if (!goesOn) {
        close(start);
        from = start;
        // A section that begins in another way than with a key is left as it is.
      } else if (from === undefined) section = undefined;
    }
  }
  close(text.length);
  return entries;
}

/** Characters up to which entries are read together. Our choice: enough that starting the reader costs nothing, and little enough to hold at a time. */
export const LONGEST_RUN: number = 4_096;

/** Neighbouring entries of a section as one, up to so many characters. */
export function joined(entries: readonly Entry[], longest: number): readonly Entry[] {
  const runs: Entry[] = [];
  for (const entry of entries) {
    const last = runs.at(-1);
    if (
      last !== undefined &&
      last.to === entry.from &&
      last.section === entry.section &&
      entry.to - last.from <= longest
    )
      runs[runs.length - 1] = { ...last, to: entry.to };
    else runs.push(entry);
  }
  return runs;
}

/** Blanks for an entry: in one line, which is read fastest, or in lines of their own, so that what follows stays in its line. */
export const inOneLine = (entry: string): string =>
  `${" ".repeat(entry.length - 1)}${entry.endsWith("\n") ? "\n" : " "}`;
export const lineByLine = (entry: string): string => entry.replaceAll(/[^\n]/g, " ");

/** The text with blanks for these entries; every offset stays what it is. */
export function withoutEntries(text: string, entries: readonly Entry[], blanks: (entry: string) => string): string {
  let written = "";
  let end = 0;
  for (const { from, to } of entries) {
    written += text.slice(end, from) + blanks(text.slice(from, to));
    end = to;
  }
  return written + text.slice(end);
}
