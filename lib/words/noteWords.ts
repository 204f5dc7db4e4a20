import type { Message, Problem } from "../base/index.js";
import { NOTE_WORDS, type NoteWord } from "./generated/noteWords.js";
import type { Words } from "./words.js";

/** How a line of notes that a remedy proposes has the words. */
const IN_LINE: Readonly<Record<NoteWord, RegExp>> = {
  dots: /(?:^|[\s|])\.\.\.(?=$|[\s|])/,
  rest: /(?:^|[\s|])rest(?=$|[\s|])/,
  same: /(?:^|[\s|])same(?=$|[\s|])/,
  tie: /(?:^|[\s|])tie(?=$|[\s|])/,
  tuplet: /\d in \d+ \[/,
};

/**
 * What the words of the note line mean that a problem uses ("tie is ..."), where they are met for the first time in an answer. Those that were
 * explained are added to `explained`.
 *
 * @example
 * const loaded = await loadWords("en");
 * const plain = { code: "YAML_SYNTAX", severity: "error", message: "no word of the note line", where: {} };
 * loaded.ok && explainNoteWords(plain, new Set(), loaded.value).length // 0
 */
export function explainNoteWords(
  { words: said }: Pick<Problem, "words">,
  explained: Set<string>,
  { say }: Pick<Words<"note-word">, "say">,
): readonly string[] {
  const keys = [said?.message?.key, said?.remedy?.key].filter((key) => key !== undefined);
  const met = keys.flatMap((key) => (Object.hasOwn(NOTE_WORDS, key) ? NOTE_WORDS[key]! : []));
  return [...met, ...proposed(said?.remedy)].flatMap((word) => {
    if (explained.has(word)) return [];
    explained.add(word);
    return [say("note-word.is", { word })];
  });
}

/** The words in a line that a remedy proposes to write. */
function proposed(remedy: Message | undefined): readonly NoteWord[] {
  if (remedy === undefined || !/^(?:pattern|curriculum)-problem\./.test(remedy.key)) return [];
  const lines = Object.values(remedy.parameters).filter((value) => typeof value === "string");
  return (Object.keys(IN_LINE) as NoteWord[]).filter((word) => lines.some((line) => IN_LINE[word].test(line)));
}
