import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex, utf8ToBytes } from "@noble/hashes/utils.js";
import type { PageFile } from "../model.js";
import { type DocumentWords, folderDocument } from "./document.js";

export interface FolderOptions {
  /** The files of `contentFiles`. */
  readonly content: readonly PageFile[];
  /** Scripts, styles and pictures of the page as they were built: "app.js", "service-worker.js", "page.css". */
  readonly parts: readonly PageFile[];
  readonly words: DocumentWords;
}

/** Parts that only a page in one file, or a service worker, is made of. */
const NOT_FETCHED = new Set(["service-worker.js"]);

/**
 * All files of a page in a folder: any web host can serve them, and after the first visit the page does without it. The same input gives the
 * same files; another content gives another version, which a visitor gets when no page of the former is open any more.
 */
export function folderFiles({ content, parts, words }: FolderOptions): readonly PageFile[] {
  const worker = parts.find(({ path }) => path === "service-worker.js");
  if (worker === undefined) throw new RangeError("the parts of a page must have service-worker.js");
  const files: readonly PageFile[] = [
    { path: "index.html", content: folderDocument(words) },
    { path: "manifest.webmanifest", content: manifest(words) },
    ...parts.filter(({ path }) => !NOT_FETCHED.has(path)),
    ...content,
  ];
  const prepared = { version: versionOf(files), files: files.map(({ path }) => path) };
  const script = `self.prepared = ${JSON.stringify(prepared)};\n${textOf(worker)}`;
  return [...files, { path: worker.path, content: script }];
}

/** A digest of all files, 64 bits of SHA-256. */
function versionOf(files: readonly PageFile[]): string {
  const hash = sha256.create();
  for (const { path, content } of files) {
    hash.update(utf8ToBytes(`${path}\0`));
    hash.update(typeof content === "string" ? utf8ToBytes(content) : content);
    hash.update(utf8ToBytes("\0"));
  }
  return bytesToHex(hash.digest()).slice(0, 16);
}

function textOf({ content }: PageFile): string {
  return typeof content === "string" ? content : new TextDecoder().decode(content);
}

/** W3C Web Application Manifest. */
function manifest({ title, language }: DocumentWords): string {
  return JSON.stringify({
    name: title,
    short_name: title.length > 12 ? `${title.slice(0, 11).trimEnd()}…` : title,
    lang: language,
    start_url: "./",
    scope: "./",
    display: "standalone",
    background_color: "#fcfbf7",
    theme_color: "#fcfbf7",
    icons: [{ src: "icon.svg", sizes: "any", type: "image/svg+xml", purpose: "any" }],
  });
}
