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
      // The PDF library asks for its fonts by a `require` of its own making, which a bundler does not see.
      const text = (await readFile(path, "utf8")).replaceAll(
        "require$1('#standard-fonts/",
        "require('#standard-fonts/",
      );
      const { code } = await transform(text, {
        legalComments: "inline",
        minify: true,
        target: "es2022",
      });
      return { contents: code, loader: "js" };
    });
  },
};
