import { expect } from "vitest";
import { type Problem, problemsIn, type Result } from "../../lib/base/index.js";
import { markedWords, unmarked } from "./marked.js";

/** Words of sentences: in what came as text they are only where a person wrote them. */
const OF_SENTENCES = /\b(?:the|an|of|and|or|is|are|which|with|for|to|found|has|have|write)\b/;

/** A quotation is what a person wrote; tempi ("60 of 3/8"), intervals and tuplets of a course hold words of sentences too. */
const WRITTEN = /^"|\d of \d|(?:lower|higher)$|\d in \d/;

/** Messages that hand on what a library says, in English. */
const OF_LIBRARIES: readonly string[] = ["formats-problem.musicxml-not-xml"];

const marked = markedWords();

/**
 * The problems, each of which carries the message of its sentence and of its remedy, is worded by the catalogue alone, and has nothing as text but
 * names, numbers and what a person wrote.
 */
export function allWorded<P extends readonly Problem[]>(problems: P): P {
  for (const { code, message, remedy, words } of problems) {
    expect(words?.message, `${code}: ${message}`).toBeDefined();
    expect(words?.remedy !== undefined, `${code}: ${remedy}`).toBe(remedy !== undefined);
    for (const [said, sentence] of [[words?.message, message] as const, [words?.remedy, remedy ?? ""] as const]) {
      if (said === undefined) continue;
      const worded = marked.word(said, sentence);
      expect(worded, code).toMatch(/^⟦.*⟧$/s);
      expect(worded.replaceAll(/[⟦⟧«»]/g, "")).toBe(sentence.replaceAll(/[⟦⟧«»]/g, ""));
      if (OF_LIBRARIES.includes(said.key)) continue;
      for (const name of unmarked(worded).names)
        if (!WRITTEN.test(name)) expect(name, worded).not.toMatch(OF_SENTENCES);
    }
  }
  return problems;
}

/** The problems or the advice of a result, all worded. */
export function worded(result: Result<unknown>): readonly Problem[] {
  return allWorded(problemsIn(result));
}
