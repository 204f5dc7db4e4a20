/** How Node says that a package is not there: for `import` and for `require`. */
const NOT_FOUND = ["ERR_MODULE_NOT_FOUND", "MODULE_NOT_FOUND"];

/** How browsers (Chromium, Firefox, Safari) and what Vite leaves in its place say so, which give no code; their words from memory. */
const NOT_RESOLVED = /module specifier|bare specifier|does not resolve to a valid URL|^Could not resolve "/;

/**
 * `import("package").catch(notInstalled)` gives `undefined` when an optional package is not installed. Whatever else is wrong with it rejects. An import of
 * just this form a bundler leaves as it is when it does not find the package, instead of refusing to go on.
 */
export function notInstalled(error: unknown): undefined {
  const isMissing =
    error instanceof Error &&
    ("code" in error ? NOT_FOUND.includes(String(error.code)) : NOT_RESOLVED.test(error.message));
  if (!isMissing) throw error;
}
