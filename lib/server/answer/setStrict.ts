/** Nothing that is answered may be run as a page, framed, or kept by others. */
const STRICT: Readonly<Record<string, string>> = {
  "content-security-policy": "default-src 'none'; frame-ancestors 'none'; base-uri 'none'; form-action 'none'",
  "cross-origin-opener-policy": "same-origin",
  "cross-origin-resource-policy": "same-origin",
  "referrer-policy": "no-referrer",
  "x-content-type-options": "nosniff",
  "x-frame-options": "DENY",
  vary: "Origin, Cookie, Authorization",
};

/** Sets those headers of an answer that it does not have in a form of its own. */
export function setStrict(headers: Headers): void {
  for (const [name, value] of Object.entries(STRICT)) if (!headers.has(name)) headers.set(name, value);
}
