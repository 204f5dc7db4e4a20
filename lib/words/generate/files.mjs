import { functionOf, parametersOf } from "./functions.mjs";
import { languageOf } from "./language.mjs";

const NOTICE = "// Generated from lib/words/catalogues by `npm run words`; change the catalogue instead.\n";

/** What no student reads, beside problems: in languages other than English it is in a file of its own. */
const OF_COMMANDS = ["cli", "code", "reason", "rehearsal"];

/** The generated files, name -> text, of catalogues by language tag. The first says which messages there are. */
export function compileCatalogues(catalogues) {
  const files = new Map();
  const [first] = catalogues.values();
  files.set("parameters.ts", parametersFile(first));
  files.set("noteWords.ts", noteWordsFile(first));
  files.set("languages.ts", languagesFile(catalogues));
  files.set("further.ts", furtherFile(catalogues));
  for (const [tag, messages] of catalogues) {
    if (messages !== first) {
      files.set(`${tag}.ts`, translationFile(tag, part(messages, false)));
      files.set(`${tag}-further.ts`, furtherOf(tag, part(messages, true)));
      continue;
    }
    files.set(`${tag}-language.ts`, NOTICE + languageOf(tag));
    const topics = topicsOf(messages);
    for (const [topic, own] of topics) files.set(`${tag}-${topic}.ts`, topicFile(tag, topic, own));
    files.set(`${tag}.ts`, wholeFile(tag, [...topics.keys()]));
  }
  return files;
}

/** Whether a topic is read by those only who write courses and run commands. */
function isFurther(topic) {
  return topic.endsWith("-problem") || OF_COMMANDS.includes(topic);
}

/** The messages of the further topics, or of the others. */
function part(messages, wanted) {
  return new Map([...messages].filter(([key]) => isFurther(key.split(".")[0]) === wanted));
}

function topicsOf(messages) {
  const topics = new Map();
  for (const [key, message] of messages) {
    const [topic] = key.split(".");
    if (!topics.has(topic)) topics.set(topic, new Map());
    topics.get(topic).set(key, message);
  }
  return topics;
}

function parametersFile(messages) {
  const lines = each(messages, (key, message) => `  ${JSON.stringify(key)}: ${parametersOf(message)};`);
  const text = lines.some((line) => line.includes("MessageText"));
  return `${NOTICE}
${text ? 'import type { MessageText } from "../../base/index.js";\n\n' : ""}/** Every message, with the parameters it needs. */
export interface MessageParameters {
${lines.join("\n")}
}
`;
}

/** What a message marks as a word of the note line, and the name it has among the explanations. */
const NOTE_WORDS = { "...": "dots", rest: "rest", same: "same", tie: "tie", "3 in 2 [": "tuplet" };

function noteWordsFile(messages) {
  const rows = [...messages].flatMap(([key, { message }]) => {
    const patterns = message.type === "select" ? message.variants.map(({ value }) => value) : [message.pattern];
    const literals = patterns.flat().flatMap((part) => (part.arg?.type === "literal" ? [part.arg.value] : []));
    const unknown = literals.find((literal) => !Object.hasOwn(NOTE_WORDS, literal));
    if (unknown !== undefined) throw new Error(`${key}: "${unknown}" is no word of the note line`);
    const names = [...new Set(literals)].map((literal) => JSON.stringify(NOTE_WORDS[literal]));
    return names.length === 0 ? [] : [`  ${JSON.stringify(key)}: [${names.join(", ")}],`];
  });
  const named = Object.values(NOTE_WORDS).map((name) => JSON.stringify(name));
  return `${NOTICE}
/** Names that words of the note line have among the explanations. */
export type NoteWord = ${named.join(" | ")};

/** Messages with words of the note line. */
export const NOTE_WORDS: Readonly<Record<string, readonly NoteWord[]>> = {
${rows.join("\n")}
};
`;
}

function topicFile(tag, topic, messages) {
  const lines = each(messages, (key, message) => `  ${JSON.stringify(key)}: ${functionOf(message, tag)},`);
  return `${NOTICE}
import type { CatalogueOf } from "../catalogueOf.js";
import type { Form } from "./${tag}-language.js";

export const messages: CatalogueOf<${JSON.stringify(topic)}, Form> = {
${lines.join("\n")}
};
`;
}

function wholeFile(tag, topics) {
  const name = (topic) => topic.replaceAll(/-(.)/g, (_, letter) => letter.toUpperCase());
  const imports = topics.map((topic) => `import { messages as ${name(topic)} } from "./${tag}-${topic}.js";`);
  return `${NOTICE}
import type { CatalogueOf, Topic } from "../catalogueOf.js";
import type { Form } from "./${tag}-language.js";
${imports.join("\n")}

export { language } from "./${tag}-language.js";

export const messages: CatalogueOf<Topic, Form> = { ${topics.map((topic) => `...${name(topic)}`).join(", ")} };
`;
}

/** A language in one file, which is loaded when somebody reads it: its messages but the further ones. */
function translationFile(tag, messages) {
  return `${NOTICE}${languageOf(tag).replace('import type { Language } from "../language.js";', 'import type { CatalogueOf } from "../catalogueOf.js";\n$&')}
${messagesOf(tag, messages)}`;
}

/** The further messages of a language. */
function furtherOf(tag, messages) {
  return `${NOTICE}
import type { CatalogueOf } from "../catalogueOf.js";
import type { Form } from "./${tag}.js";

${messagesOf(tag, messages)}`;
}

function messagesOf(tag, messages) {
  const topics = [...topicsOf(messages).keys()].map((topic) => JSON.stringify(topic)).join(" | ");
  const lines = each(messages, (key, message) => `  ${JSON.stringify(key)}: ${functionOf(message, tag)},`);
  return `export const messages: CatalogueOf<${topics === "" ? "never" : topics}, Form> = {
${lines.join("\n")}
};
`;
}

/** Where the further messages of each language are. The build changes how they are loaded: see `furtherPacked`. */
function furtherFile(catalogues) {
  const [first, ...others] = catalogues.keys();
  const topics = [...topicsOf(catalogues.get(first)).keys()].filter(isFurther);
  return `${NOTICE}
import type { Topic } from "../catalogueOf.js";
import type { Compiled } from "../wording.js";

/** What those only read who write courses and run commands. */
export const FURTHER_TOPICS: readonly Topic[] = ${JSON.stringify(topics)};

/** The messages of these topics, by language tag: loaded when they are asked for. */
export const FURTHER: { readonly [tag: string]: () => Promise<{ readonly messages: Compiled }> } = {
${others.map((tag) => `  ${JSON.stringify(tag)}: () => import("./${tag}-further.js"),`).join("\n")}
};
`;
}

/** Languages that a native speaker has read. */
const REVIEWED = ["en"];

function languagesFile(catalogues) {
  const [first] = catalogues.values();
  const all = [...topicsOf(first).keys()];
  const described = [...catalogues].map(([tag, messages]) => {
    const own = topicsOf(messages);
    const lacks = all.filter((topic) => !own.has(topic));
    const name = new Intl.DisplayNames([tag], { type: "language" }).of(tag);
    const about = { name, isReviewed: REVIEWED.includes(tag), lacks };
    return `  ${JSON.stringify(tag)}: { ...${JSON.stringify(about)}, load: () => import("./${tag}.js") },`;
  });
  return `${NOTICE}
import type { Topic } from "../catalogueOf.js";
import type { Language } from "../language.js";
import type { Compiled } from "../wording.js";

/** What is known of a language before it is loaded. */
export interface KnownLanguage {
  /** In the language itself. */
  readonly name: string;
  /** Whether a native speaker has read it. */
  readonly isReviewed: boolean;
  /** Topics it has no words for. */
  readonly lacks: readonly Topic[];
  readonly load: () => Promise<{ readonly language: Language; readonly messages: Compiled }>;
}

/** Every language, loaded when it is asked for. */
export const LANGUAGES: { readonly [tag in ${[...catalogues.keys()].map((tag) => JSON.stringify(tag)).join(" | ")}]: KnownLanguage } = {
${described.join("\n")}
};
`;
}

/** One line for each message. Throws when a message cannot be compiled, and says which. */
function each(messages, line) {
  return [...messages].map(([key, message]) => {
    try {
      return line(key, message);
    } catch (error) {
      throw new Error(`${key}: ${error.message}`);
    }
  });
}
