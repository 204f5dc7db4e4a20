import { Composer, type CST, type Document, type YAMLError } from "yaml";
import { mostTokens } from "../limits.js";
import { placesIn, tokensOf } from "./tokens.js";

/** The documents of these tokens, and all errors in them. */
export function composed(tokens: readonly CST.Token[]): {
  readonly documents: readonly Document.Parsed[];
  readonly errors: readonly YAMLError[];
} {
  // Duplicate keys are found in data.ts, because the library compares each key with each other. A %YAML directive must not change the schema.
  const composer = new Composer({
    prettyErrors: false,
    uniqueKeys: false,
    schema: "core",
    version: "1.2",
    strict: true,
  });
  const documents = [...composer.compose(tokens)] as Document.Parsed[];
  const errors = documents.flatMap((document) => [...document.errors, ...document.warnings.filter(isTag)]);
  return { documents, errors };
}

function isTag(warning: YAMLError): boolean {
  return warning.code === "TAG_RESOLVE_FAILED";
}

/** The errors of a text; `undefined` where it is not read to its end. */
export function errorsIn(text: string): readonly YAMLError[] | undefined {
  const placeAt = placesIn(text);
  const read = tokensOf(text, { placeAt, offset: 0, count: { tokens: 0 }, most: mostTokens(text.length), around: 0 });
  return read.ok ? composed(read.value).errors : undefined;
}
