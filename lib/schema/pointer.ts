/** The RFC 6901 pointer through these keys and indices. */
export function pointerTo(path: readonly (string | number)[]): string {
  return path.map((key) => `/${String(key).replaceAll("~", "~0").replaceAll("/", "~1")}`).join("");
}

/** The keys and indices, as texts, that an RFC 6901 pointer leads through. */
export function pathOf(pointer: string): readonly string[] {
  return pointer
    .split("/")
    .slice(1)
    .map((key) => key.replaceAll("~1", "/").replaceAll("~0", "~"));
}
