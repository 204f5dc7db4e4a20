import type { MessageText } from "../base/index.js";
import { placeAt } from "./messageText.js";
import { say } from "./say.js";
import type { SchemaPiece } from "./violation.js";

/** What a course is made of, as the titles of its schema name it. */
const THINGS = [
  "drill",
  "dropout",
  "gate",
  "go-back",
  "growth",
  "instrument",
  "ladder",
  "meter-change",
  "mix",
  "open",
  "part",
  "pattern",
  "player-in-octave",
  "sequential",
  "span-steps",
  "tempo-steps",
  "tolerance",
  "variant",
] as const;

/** What holds a key, for people: "a drill", "a pattern"; the place where the schema has no name for it. */
export function holderAt({ title }: SchemaPiece, pointer: string): MessageText {
  if (title === undefined || pointer === "") return placeAt(pointer);
  const words = title
    .replace(/Document$/, "")
    .replaceAll(/(?<=[a-z])(?=[A-Z])/g, " ")
    .toLowerCase();
  const thing = title.endsWith("Document") ? THINGS.find((known) => known === words.replaceAll(" ", "-")) : undefined;
  if (thing !== undefined) return say("schema-problem.holder", { thing }).message;
  return /^[aeiou]/.test(words)
    ? say("schema-problem.holder-else-vowel", { name: words }).message
    : say("schema-problem.holder-else", { name: words }).message;
}
