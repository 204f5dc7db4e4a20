import { expect } from "vitest";
import { type Message, type Problem, problemsIn, type Result } from "../../lib/base/index.js";
import { messages } from "../../lib/words/generated/en.js";
import { english, wordsOf } from "../../lib/words/index.js";
import { markedWords, unmarked } from "./marked.js";

/** Words of sentences: in what came as text they are only where a person wrote them. */
const OF_SENTENCES = /\b(?:the|an|of|and|or|is|are|which|with|for|to|found|has|have|write)\b/;

/** A quotation, and what has braces, is as a person writes it; keys ("from, to", "of: 4"), tempi ("60 of 3/8"), intervals, clicks and tuplets of a course hold words of sentences too. */
const WRITTEN = /^"|\{|^(?:(?:from, )?to|of(?:: \d)?)$|\d of \d|(?:lower|higher)$|\d in \d|^beats \d/;

/** Messages that hand on English from elsewhere: what readers of XML and YAML say. */
const HANDED_ON = /^(?:formats-problem\.musicxml-not-xml|curriculum-problem\.yaml-syntax)$/;

/** Without the words for values of settings: a library gives its sentences with values as a course writes them. */
const { "value.length": _, ...plain } = messages;
const words = wordsOf(english, plain as typeof messages);
const marked = markedWords();

/**
 * The problems, each of which carries the messages that its sentence and its remedy are in English, has no word beside them, and has nothing as text in them but
 * names, numbers and what a person wrote.
 */
export function allWorded<P extends readonly Problem[]>(problems: P): P {
  for (const problem of problems) namesIn(problem);
  return problems;
}

/** The problems or the advice of a result, all worded. */
export function worded(result: Result<unknown>): readonly Problem[] {
  return allWorded(problemsIn(result));
}

/** What came as text in a problem, which is worded. */
export function namesIn({ code, message, remedy, words: own }: Problem): readonly string[] {
  expect(own?.remedy !== undefined, `${code}: ${remedy}`).toBe(remedy !== undefined);
  const said = [namesSaid(code, own?.message, message)];
  if (remedy !== undefined) said.push(namesSaid(code, own?.remedy, remedy));
  return said.flat();
}

function namesSaid(code: string, message: Message | undefined, sentence: string): readonly string[] {
  expect(words.word(message, ""), code).toBe(sentence);
  const { outside, names } = unmarked(marked.word(message, sentence));
  expect(outside, code).toBe("");
  if (HANDED_ON.test(message!.key)) return names;
  for (const name of names) if (!WRITTEN.test(name)) expect(name, sentence).not.toMatch(OF_SENTENCES);
  return names;
}
