import { escapeHtml } from "./escapeHtml.js";

/** What the document of a page says before any script runs. */
export interface DocumentWords {
  /** BCP 47 tag. */
  readonly language: string;
  readonly title: string;
  /** Said where scripts are off; absent for a document without scripts. */
  readonly noScript?: string;
}

/**
 * Nothing but what the page's own folder holds, and no code from text; styles that scripts set are no concern of a policy. An address of `data:`
 * is for pictures that are made on the page, one of `blob:` for the sound of a take and for files to save.
 */
const FOLDER_POLICY: string = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "img-src 'self' data:",
  "media-src 'self' blob:",
  "connect-src 'self'",
  "manifest-src 'self'",
  "worker-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
].join("; ");

/** The document of a page that stands in a folder with its scripts. */
export function folderDocument(words: DocumentWords): string {
  return documentOf(words, {
    policy: FOLDER_POLICY,
    head: `<link rel="manifest" href="manifest.webmanifest">
<link rel="icon" href="icon.svg" type="image/svg+xml">
<link rel="stylesheet" href="page.css">
<script type="module" src="app.js"></script>`,
    body: "",
  });
}

/** The document of the page of a class, which stands in a folder beside the practice page, on the same style. */
export function classDocument(words: DocumentWords): string {
  return documentOf(words, {
    policy: FOLDER_POLICY,
    head: `<link rel="icon" href="../icon.svg" type="image/svg+xml">
<link rel="stylesheet" href="../page.css">
<script type="module" src="class.js"></script>`,
    body: "",
  });
}

interface Parts {
  readonly policy: string;
  readonly head: string;
  readonly body: string;
}

/** A whole document. `head` and `body` are markup. */
export function documentOf({ language, title, noScript }: DocumentWords, { policy, head, body }: Parts): string {
  return `<!doctype html>
<html lang="${escapeHtml(language)}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${escapeHtml(policy)}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="referrer" content="no-referrer">
<meta name="color-scheme" content="light dark">
<meta name="theme-color" content="#fcfbf7" media="(prefers-color-scheme: light)">
<meta name="theme-color" content="#121a20" media="(prefers-color-scheme: dark)">
<title>${escapeHtml(title)}</title>
${head}
</head>
<body>
${noScript === undefined ? "" : `<noscript><p>${escapeHtml(noScript)}</p></noscript>\n`}${body}</body>
</html>
`;
}
