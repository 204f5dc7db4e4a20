import type { Problem } from "../base/index.js";
import { languageNotes, loadWords, type Words } from "../words/index.js";
import type { Setting } from "./outcome.js";

/** Loads the words of a language by its BCP 47 tag. */
export type LoadWords = typeof loadWords;

/** A command's surroundings before its language is known, and how languages are loaded. */
export interface Surroundings extends Pick<Setting, "terminal" | "json"> {
  readonly load: LoadWords | undefined;
}

/** The setting in the language of `--language`, whatever language a course has; in English, with the problem, when there are no words of it. */
export async function settingIn(
  tag: string,
  { terminal, json, load }: Surroundings,
): Promise<{ readonly setting: Setting; readonly problems: readonly Problem[] }> {
  const { words, problems } = await wordsFor(tag, load);
  tellNotes(words, terminal);
  const setting: Setting = {
    terminal,
    json,
    sources: new Map(),
    explained: new Set(),
    words,
    inLanguageOf: async () => setting,
  };
  return { setting, problems };
}

/** The setting in the language of the course among the arguments of a command, else in English. A course that is known only later has its language then. */
export async function settingFor(given: readonly string[], { terminal, json, load }: Surroundings): Promise<Setting> {
  const shared = { terminal, json, sources: new Map<string, string>(), explained: new Set<string>() };
  const begun = new Map<string, Promise<Setting>>();
  const settingOf = (tag: string): Promise<Setting> => {
    const setting = begun.get(tag) ?? begin(tag);
    begun.set(tag, setting);
    return setting;
  };
  const begin = async (tag: string): Promise<Setting> => {
    const { words, problems } = await wordsFor(tag, load);
    tellNotes(words, terminal);
    if (problems.length > 0) terminal.tell(`${words.say("languages.unknown-of-course", { found: tag })}\n`);
    const setting: Setting = {
      ...shared,
      words,
      inLanguageOf: async ({ imprint }) => (imprint?.language === undefined ? setting : settingOf(imprint.language)),
    };
    return setting;
  };
  const file = given.find((each) => /\.(?:ya?ml|json)$/i.test(each));
  const tag = file && (await import("./input/courseLanguage.js")).languageOfCourse(file);
  return settingOf(tag ?? "en");
}

/** The words in which a command answers; in English, with the problem, when there are none of that language. */
export async function wordsFor(
  tag: string,
  load: LoadWords = loadWords,
): Promise<{ readonly words: Words; readonly problems: readonly Problem[] }> {
  const wanted = await load(tag);
  if (wanted.ok) return { words: wanted.value, problems: [] };
  const english = await loadWords("en");
  if (!english.ok) throw new RangeError("the English words are missing");
  return { words: english.value, problems: wanted.problems };
}

function tellNotes(words: Words, terminal: Setting["terminal"]): void {
  for (const note of languageNotes(words)) terminal.tell(`${note}\n`);
}
