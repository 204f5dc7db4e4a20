import { sha256 } from "@noble/hashes/sha2.js";
import { utf8ToBytes } from "@noble/hashes/utils.js";
import type { PageFile } from "../model.js";
import { type DocumentWords, documentOf } from "./document.js";
import { escapeHtml } from "./escapeHtml.js";
import { textOf } from "./folderFiles.js";

export interface SingleOptions {
  readonly content: readonly PageFile[];
  /** The whole script, in one piece. */
  readonly script: string;
  readonly style: string;
  readonly words: DocumentWords;
}

/**
 * A page in one file, to hand out: it works by a double click, and fetches nothing at all. Its policy names its one script and its one style by
 * their digests.
 */
export function singlePage({ content, script, style, words }: SingleOptions): string {
  // "</script" would end the element, wherever it stands; in JavaScript it is only found in strings, where "<\/" is the same.
  const code = script.replaceAll(/<\/(?=script)/gi, "<\\/").replaceAll("<!--", "<\\!--");
  const policy = [
    "default-src 'none'",
    // Worklets are addresses of data: a browser refuses those of blob: where a page is a file.
    `script-src '${digest(code)}' data:`,
    `style-src '${digest(style)}'`,
    "img-src data:",
    "media-src blob:",
    "connect-src 'none'",
    "base-uri 'none'",
    "form-action 'none'",
  ].join("; ");
  const files = content
    .map((file) => {
      const data = textOf(file).replaceAll("<", "\\u003c");
      return `<script type="application/json" data-file="${escapeHtml(file.path)}">${data}</script>\n`;
    })
    .join("");
  return documentOf(words, {
    policy,
    head: `<style data-part="style">${style}</style>`,
    body: `${files}<script data-part="script">${code}</script>\n`,
  });
}

/** A digest as a Content Security Policy has it (CSP level 3, section 2.3.1). */
function digest(text: string): string {
  return `sha256-${btoa(String.fromCharCode(...sha256(utf8ToBytes(text))))}`;
}
