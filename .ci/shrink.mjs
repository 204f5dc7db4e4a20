/**
 * An esbuild plugin: packages and generated validators without blanks and long local names, which halves the build. Our own code stays as it reads, for
 * whoever follows an error into it.
 */
import { readFile } from "node:fs/promises";
import { transform } from "esbuild";

export const shrunk = {
  name: "shrunk",
  setup: (builder) => {
    builder.onLoad({ filter: /[\\/](node_modules|schema[\\/]generated)[\\/].*\.(js|mjs|cjs)$/ }, async ({ path }) => {
      const { code } = await transform(await readFile(path, "utf8"), {
        legalComments: "inline",
        minify: true,
        target: "es2022",
      });
      return { contents: code, loader: "js" };
    });
  },
};
