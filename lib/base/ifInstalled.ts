/** How Node says that a package is not there: for `import` and for `require`. */
const NOT_FOUND = ["ERR_MODULE_NOT_FOUND", "MODULE_NOT_FOUND"];

/**
 * What `load`, an `import()` of code that needs an optional package, gives; `undefined` when the package is not installed. Whatever else is wrong
 * with it rejects.
 */
export async function ifInstalled<T>(load: () => Promise<T>): Promise<T | undefined> {
  try {
    return await load();
  } catch (error) {
    if (error instanceof Error && "code" in error && NOT_FOUND.includes(String(error.code))) return undefined;
    throw error;
  }
}
