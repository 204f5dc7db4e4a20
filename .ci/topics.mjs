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
