import { functionOf, parametersOf } from "./functions.mjs";
import { languageOf } from "./language.mjs";

const NOTICE = "// Generated from lib/words/catalogues by `npm run words`; change the catalogue instead.\n";

/** What only `leeway explain` says: in languages other than English it is in no file that a page or a student's answer loads. */
const APART = "code";

/** The generated files, name -> text, of catalogues by language tag. The first says which messages there are. */
export function compileCatalogues(catalogues) {
  const files = new Map();
  const [first] = catalogues.values();
  files.set("parameters.ts", parametersFile(first));
  files.set("noteWords.ts", noteWordsFile(first));
  files.set("languages.ts", languagesFile(catalogues));
  for (const [tag, messages] of catalogues) {
    if (messages !== first) {
      files.set(`${tag}.ts`, translationFile(tag, withoutApart(messages)));
      continue;
    }
    files.set(`${tag}-language.ts`, NOTICE + languageOf(tag));
    const topics = topicsOf(messages);
    for (const [topic, own] of topics) files.set(`${tag}-${topic}.ts`, topicFile(tag, topic, own));
    files.set(`${tag}.ts`, wholeFile(tag, [...topics.keys()]));
  }
  return files;
}

/** What each code means in the languages that have words for it, as a file of its own: code -> language tag -> sentence. */
export function meaningsFile(catalogues) {
  const [first, ...others] = catalogues.keys();
  const rows = [...catalogues.get(first).keys()].filter(isApart).map((key) => {
    const said = others.flatMap((tag) => {
      const found = catalogues.get(tag).get(key);
      return found === undefined ? [] : [[tag, plainText(key, found.message)]];
    });
    return `  ${JSON.stringify(key.slice(APART.length + 1))}: ${JSON.stringify(Object.fromEntries(said))},`;
  });
  return `${NOTICE}
/** What each code means, by language: the build packs it, and only \`leeway explain\` reads it. */
export const MEANINGS: { readonly [code: string]: { readonly [tag: string]: string } } = {
${rows.join("\n")}
};
`;
}

/** The text of a message that has no parameters. */
function plainText(key, { type, pattern }) {
  const isPlain = (part) => typeof part === "string" || part.arg?.type === "literal";
  if (type !== "message" || !pattern.every(isPlain)) throw new Error(`${key}: what a code means has no parameters`);
  return pattern.map((part) => (typeof part === "string" ? part : part.arg.value)).join("");
}

const isApart = (key) => key.startsWith(`${APART}.`);

function withoutApart(messages) {
  return new Map([...messages].filter(([key]) => !isApart(key)));
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

/** A language in one file, which is loaded when somebody reads it: all messages of the topics it has. */
function translationFile(tag, messages) {
  const topics = [...topicsOf(messages).keys()].map((topic) => JSON.stringify(topic)).join(" | ");
  const lines = each(messages, (key, message) => `  ${JSON.stringify(key)}: ${functionOf(message, tag)},`);
  return `${NOTICE}${languageOf(tag).replace('import type { Language } from "../language.js";', 'import type { CatalogueOf } from "../catalogueOf.js";\n$&')}
export const messages: CatalogueOf<${topics}, Form> = {
${lines.join("\n")}
};
`;
}

/** Languages that a native speaker has read. */
const REVIEWED = ["en"];

function languagesFile(catalogues) {
  const [first] = catalogues.values();
  const all = [...topicsOf(first).keys()];
  const described = [...catalogues].map(([tag, messages]) => {
    const own = topicsOf(messages === first ? messages : withoutApart(messages));
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
