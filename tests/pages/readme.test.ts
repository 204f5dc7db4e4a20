import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { ROOT } from "../sources.js";
import { blocksOf, pageExamples } from "./pageExamples.js";

pageExamples("README.md");

describe("every page", () => {
  /** Pages with something that can run; the page of the recipes is made by their own test. */
  const pages = ["curricula", "lib", "schemas", "tests"]
    .flatMap((folder) =>
      readdirSync(join(ROOT, folder), { encoding: "utf8", recursive: true }).map((file) =>
        `${folder}/${file}`.replaceAll("\\", "/"),
      ),
    )
    .concat(readdirSync(ROOT))
    .filter((file) => file.endsWith(".md") && file !== "curricula/recipes/README.md")
    .filter((file) => blocksOf(file).some(({ language }) => language !== "text"));
  const tests = readdirSync(import.meta.dirname).filter((file) => file.endsWith(".test.ts"));
  const tried = tests.flatMap((file) =>
    [...readFileSync(join(import.meta.dirname, file), "utf8").matchAll(/pageExamples\("([^"]+)"\)/g)].map(
      ([, page]) => page!,
    ),
  );

  test("with an example is tried by a test of this folder, once", () => {
    expect([...tried].sort()).toEqual([...pages].sort());
  });

  test("that a user begins with fits its length", () => {
    expect(readFileSync(join(ROOT, "README.md"), "utf8").split("\n").length).toBeLessThanOrEqual(250);
  });
});
