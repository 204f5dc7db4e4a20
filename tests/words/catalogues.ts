// @ts-expect-error: the generator is plain JavaScript.
import { readCatalogue as read, readCatalogues as readAll } from "../../lib/words/generate/catalogues.mjs";
// @ts-expect-error: the generator is plain JavaScript.
import { compileCatalogues as compile } from "../../lib/words/generate/files.mjs";
// @ts-expect-error: the generator is plain JavaScript.
import { inputsOf as inputs } from "../../lib/words/generate/inputs.mjs";
// @ts-expect-error: the generator is plain JavaScript.
import { languageOf as language } from "../../lib/words/generate/language.mjs";

/** A message of a catalogue: as it is written, and as the library reads it. */
export interface Entry {
  readonly source: string;
  readonly message: object;
}

export interface Input {
  readonly kind: "name" | "number" | "text";
  readonly of?: readonly string[];
}

export const readCatalogue = read as (text: string, file: string) => ReadonlyMap<string, Entry>;
export const readCatalogues = readAll as () => Promise<ReadonlyMap<string, ReadonlyMap<string, Entry>>>;
export const compileCatalogues = compile as (
  catalogues: ReadonlyMap<string, ReadonlyMap<string, Entry>>,
) => ReadonlyMap<string, string>;
export const inputsOf = inputs as (message: object) => ReadonlyMap<string, Input>;
export const languageOf = language as (tag: string) => string;
