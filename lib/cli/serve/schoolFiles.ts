import { contentType } from "../../node/index.js";
import { classDocument, type PageFile } from "../../page/index.js";
import type { ServedFile } from "../../server/index.js";
import type { Words } from "../../words/index.js";
import { bytesOf } from "../page/pageFiles.js";

/** What a school serves beside its API: the practice page at "/", and the page of a class at "/class/". Path -> file. */
export function schoolFiles(
  practice: readonly PageFile[],
  { classParts, words }: { readonly classParts: readonly PageFile[]; readonly words: Words },
): ReadonlyMap<string, ServedFile> {
  const said = {
    language: words.language,
    title: words.say("school.school"),
    noScript: words.say("school.needs-script"),
  };
  const ofClass = [{ path: "index.html", content: classDocument(said) }, ...classParts];
  return new Map([...practice.map((file) => served("/", file)), ...ofClass.map((file) => served("/class/", file))]);
}

function served(folder: string, { path, content }: PageFile): readonly [string, ServedFile] {
  return [path === "index.html" ? folder : `${folder}${path}`, { type: contentType(path), bytes: bytesOf(content) }];
}
