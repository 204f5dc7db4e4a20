import type { MessageText } from "../../lib/base/index.js";
import { messages as english, language } from "../../lib/words/generated/en.js";
import { type Topic, type Words, wordsOf } from "../../lib/words/index.js";
import type { Compiled, Wording } from "../../lib/words/wording.js";

/** Words in a language made for tests: every message stands in ⟦ ⟧, and every name that came as text in « ». */
export function markedWords(): Words {
  const marked = Object.entries(english as Compiled).map(([key, message]) => [
    key,
    (parameters: never, wording: Wording): string => `⟦${message(parameters, marking(wording) as Wording<never>)}⟧`,
  ]);
  return wordsOf<Topic>(language, Object.fromEntries(marked));
}

function marking(wording: Wording): Wording {
  const text = (value: MessageText): string => {
    if (typeof value === "string") return `«${value}»`;
    return Array.isArray(value) ? value.map(text).join(", ") : wording.text(value);
  };
  return { ...wording, text };
}

/** What of a text stands in no message, and the names in it. */
export function unmarked(text: string): { readonly outside: string; readonly names: readonly string[] } {
  const names = [...text.matchAll(/«([^»]*)»/g)].map((found) => found[1]!);
  let outside = text;
  while (/⟦[^⟦⟧]*⟧/.test(outside)) outside = outside.replaceAll(/⟦[^⟦⟧]*⟧/g, "");
  return { outside, names };
}
