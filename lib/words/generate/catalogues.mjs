import { readdir, readFile } from "node:fs/promises";
import { parseMessage, validate } from "messageformat";
import { parseDocument } from "yaml";

const FOLDER = new URL("../catalogues/", import.meta.url);

/** Every catalogue by its language tag, English first: key -> message as it is written and as it is read. A language is a folder with a file for each topic. */
export async function readCatalogues() {
  const tags = (await readdir(FOLDER)).sort((a, b) => Number(b === "en") - Number(a === "en") || (a < b ? -1 : 1));
  return new Map(await Promise.all(tags.map(async (tag) => [tag, await readLanguage(tag)])));
}

async function readLanguage(tag) {
  const messages = new Map();
  const files = (await readdir(new URL(`${tag}/`, FOLDER))).filter((file) => file.endsWith(".yaml")).sort();
  for (const file of files) {
    const topic = file.replace(".yaml", "");
    const read = readCatalogue(await readFile(new URL(`${tag}/${file}`, FOLDER), "utf8"), `${tag}/${file}`);
    for (const [key, message] of read) {
      if (!key.startsWith(`${topic}.`)) throw new Error(`${tag}/${file}: ${key} does not belong to the topic ${topic}`);
      messages.set(key, message);
    }
  }
  return messages;
}

/** The messages of one file of a catalogue. Throws when one cannot be read, and says which. */
export function readCatalogue(text, file) {
  const document = parseDocument(text);
  if (document.errors.length > 0) throw new Error(`${file}: ${document.errors[0].message}`);
  const messages = new Map();
  for (const [key, source] of leaves(document.toJS(), [])) {
    try {
      const message = parseMessage(source);
      validate(message, (type, node) => {
        throw new Error(`${type} at ${JSON.stringify(node.name ?? node)}`);
      });
      messages.set(key, { source, message });
    } catch (error) {
      throw new Error(`${file}: ${key}: ${error.message}`);
    }
  }
  return messages;
}

function* leaves(node, path) {
  if (typeof node === "string") {
    if (path.length < 2) throw new Error(`${path.join(".")} must stand under a topic`);
    yield [path.join("."), node];
    return;
  }
  if (node === null || typeof node !== "object" || Array.isArray(node))
    throw new Error(`${path.join(".")} must be a message or hold messages`);
  for (const [name, child] of Object.entries(node)) {
    if (!/^[a-z][a-z0-9-]*$/.test(name)) throw new Error(`"${[...path, name].join(".")}" is no name for a message`);
    yield* leaves(child, [...path, name]);
  }
}
