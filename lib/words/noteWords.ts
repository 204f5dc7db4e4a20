import type { Problem } from "../base/index.js";
import { NOTE_WORDS } from "./generated/noteWords.js";
import type { Words } from "./words.js";

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
  return met.flatMap((word) => {
    if (explained.has(word)) return [];
    explained.add(word);
    return [say("note-word.is", { word })];
  });
}
