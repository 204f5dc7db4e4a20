import { etagOf } from "./contentAnswer.js";

/** A file of the pages. */
export interface ServedFile {
  readonly type: string;
  readonly bytes: Uint8Array;
}

/** Finds a file by its path; `undefined` when there is none. */
export type FindFile = (path: string) => ServedFile | undefined | Promise<ServedFile | undefined>;

/** Pages: scripts, styles and requests of the server itself alone, and nothing inline. */
const PAGE_POLICY: string = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "img-src 'self' data:",
  "media-src 'self' blob:",
  "connect-src 'self'",
  "manifest-src 'self'",
  "worker-src 'self'",
  "frame-ancestors 'none'",
  "base-uri 'none'",
  "form-action 'none'",
].join("; ");

/** A file over HTTP; it is not sent again when the header If-None-Match names it. */
export function answerFile({ type, bytes }: ServedFile, request: Request): Response {
  const tag = etagOf(bytes);
  const headers = {
    "content-type": type,
    etag: tag,
    "cache-control": "no-cache",
    "content-security-policy": PAGE_POLICY,
  };
  if (request.headers.get("if-none-match") === tag) return new Response(null, { status: 304, headers });
  return new Response(request.method === "HEAD" ? null : new Uint8Array(bytes), { status: 200, headers });
}
