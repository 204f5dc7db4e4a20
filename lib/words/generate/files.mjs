import { functionOf, parametersOf } from "./functions.mjs";
import { languageOf } from "./language.mjs";

const NOTICE = "// Generated from lib/words/catalogues by `npm run words`; change the catalogue instead.\n";

/** The generated files, name -> text, of catalogues by language tag. The first says which messages there are. */
export function compileCatalogues(catalogues) {
  const files = new Map();
  const [first] = catalogues.values();
  files.set("parameters.ts", parametersFile(first));
  files.set("languages.ts", languagesFile([...catalogues.keys()]));
  for (const [tag, messages] of catalogues) {
    files.set(`${tag}-language.ts`, NOTICE + languageOf(tag));
    const topics = topicsOf(messages);
    for (const [topic, own] of topics) files.set(`${tag}-${topic}.ts`, topicFile(tag, topic, own));
    files.set(`${tag}.ts`, wholeFile(tag, [...topics.keys()]));
  }
  return files;
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
  const lines = each(messages, (key, message) => `  readonly ${JSON.stringify(key)}: ${parametersOf(message)};`);
  const text = lines.some((line) => line.includes("MessageText"));
  return `${NOTICE}
${text ? 'import type { MessageText } from "../../base/index.js";\n\n' : ""}/** Every message, with the parameters it needs. */
export interface MessageParameters {
${lines.join("\n")}
}
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

function languagesFile(tags) {
  return `${NOTICE}
import type { CatalogueOf, Topic } from "../catalogueOf.js";
import type { Language } from "../language.js";

interface LoadedLanguage {
  readonly language: Language;
  readonly messages: CatalogueOf<Topic>;
}

/** Every language, loaded when it is asked for. */
export const LANGUAGES: { readonly [tag in ${tags.map((tag) => JSON.stringify(tag)).join(" | ")}]: () => Promise<LoadedLanguage> } = {
${tags.map((tag) => `  ${JSON.stringify(tag)}: () => import("./${tag}.js"),`).join("\n")}
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
