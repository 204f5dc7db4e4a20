import type { MessageParameters } from "./generated/parameters.js";
import type { Words } from "./words.js";

type Name = MessageParameters["instrument.name"]["name"];

/**
 * The name of an instrument in a language; one of a course's own stays as the course names it.
 *
 * @example
 * const loaded = await loadWords("de");
 * loaded.ok && wordInstrument("alto saxophone", loaded.value) // "Altsaxophon"
 */
export function wordInstrument(english: string, { say }: Pick<Words<"instrument">, "say">): string {
  const name = english.toLowerCase().replaceAll(" ", "-").replaceAll("'", "");
  // A name that no variant has is said in English by every catalogue.
  return say("instrument.name", { name: name as Name, english });
}
