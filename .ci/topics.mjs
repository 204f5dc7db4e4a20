import { readFile } from "node:fs/promises";

/**
 * esbuild plugins that leave topics out of the catalogues: a page loads a language whole, and a message of a topic that it never says is weight. A message
 * from elsewhere that is not in the catalogue is said by the English sentence that came with it.
 */
export function topicsBut(left) {
  return emptied((topic) => left.includes(topic));
}

/** Leaves out all topics but these. */
export function topicsOnly(kept) {
  return emptied((topic) => !kept.includes(topic));
}

/**
 * An esbuild plugin that leaves topics of problems out of the whole of English: whoever raises a problem has its own topic, and hands on the sentence with
 * the message. Other languages do not have them either.
 */
export const withoutProblems = {
  name: "without problems",
  setup: (builder) => {
    builder.onLoad({ filter: /[\\/]words[\\/]generated[\\/]en\.ts$/ }, async ({ path }) => {
      const text = await readFile(path, "utf8");
      const left = [...text.matchAll(/^import \{ messages as (\w+) \} from "\.\/en-[a-z-]+-problem\.js";\n/gm)];
      const kept = left.reduce((each, [line, name]) => each.replace(line, "").replace(`...${name}, `, ""), text);
      return { contents: kept.replace(/, \.\.\.\w+Problem(?= \})/g, ""), loader: "ts" };
    });
  },
};

/** What a file says beside its topics. */
const LANGUAGE = "language";

function emptied(isLeftOut) {
  return {
    name: "topics",
    setup: (builder) => {
      builder.onLoad({ filter: /[\\/]words[\\/]generated[\\/][a-z]+-[a-z-]+\.ts$/ }, ({ path }) => {
        const topic = /[\\/][a-z]+-([a-z-]+)\.ts$/.exec(path)[1];
        if (topic === LANGUAGE || !isLeftOut(topic)) return undefined;
        return { contents: "export const messages = {};", loader: "ts" };
      });
    },
  };
}
