import { sha256 } from "@noble/hashes/sha2.js";
import { utf8ToBytes } from "@noble/hashes/utils.js";
import type { PageFile } from "../model.js";
import { type DocumentWords, documentOf } from "./document.js";
import { escapeHtml } from "./escapeHtml.js";

export interface SingleOptions {
  readonly content: readonly PageFile[];
  /** The whole script, in one piece. */
  readonly script: string;
  /** The words of the page's language as they were built, `words/de.js`; none when left out: English, or a script that has them already. */
  readonly language?: string | undefined;
  readonly style: string;
  readonly words: DocumentWords;
}

/**
 * A page in one file, to hand out: it works by a double click, and fetches nothing at all. Its policy names its one script and its one style by
 * their digests.
 */
export function singlePage({ content, script: alone, style, words, language }: SingleOptions): string {
  const script = language === undefined ? alone : `${globalWords(language)}\n${alone}`;
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
    .map(({ path, content: data }) => {
      const name = escapeHtml(path);
      if (typeof data !== "string") return `<script type="text/plain" data-file="${name}">${toBase64(data)}</script>\n`;
      return `<script type="application/json" data-file="${name}">${data.replaceAll("<", "\\u003c")}</script>\n`;
    })
    .join("");
  return documentOf(words, {
    policy,
    head: `<style data-part="style">${style}</style>`,
    body: `${files}<script data-part="script">${code}</script>\n`,
  });
}

/** A module of words as a script that leaves them where the script of a page in one file looks. */
function globalWords(module: string): string {
  const given = /export\s*\{\s*([\w$]+) as language,\s*([\w$]+) as messages\s*\};?\s*$/.exec(module);
  if (given === null) throw new RangeError("a file of words must export language and messages");
  const [, language, messages] = given;
  return `(()=>{${module.slice(0, given.index)}globalThis.leewayWords={language:${language},messages:${messages}};})();`;
}

/** Bytes as text, in pieces that a function takes as arguments. */
function toBase64(bytes: Uint8Array): string {
  const PIECE = 30_000;
  const pieces = Array.from({ length: Math.ceil(bytes.length / PIECE) }, (_, i) =>
    btoa(String.fromCharCode(...bytes.subarray(i * PIECE, (i + 1) * PIECE))),
  );
  return pieces.join("");
}

/** A digest as a Content Security Policy has it (CSP level 3, section 2.3.1). */
function digest(text: string): string {
  return `sha256-${toBase64(sha256(utf8ToBytes(text)))}`;
}
