import { test } from "vitest";
import { keepFile } from "../curriculum/generated.js";
import { formatTables } from "../schema/formatKeys.js";
import { pageExamples } from "./pageExamples.js";

pageExamples("schemas/README.md");

const HEAD = `# Every key of every format

Generated from the schemas: what each key is, whether it is always there, and an example. The keys of a course are in [the guide for authors](../curricula/README.md). What the documents are for is in
[the formats](README.md).`;

test("schemas/KEYS.md has every key of every format", () =>
  keepFile("schemas/KEYS.md", `${HEAD}\n\n${formatTables()}\n`));
