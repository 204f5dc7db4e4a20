/**
 * The RFC 6901 pointer of a path of keys and indices.
 *
 * @example
 * pointerTo(["drills", "half/bar", 0]) // "/drills/half~1bar/0"
 */
export function pointerTo(path: readonly (string | number)[]): string {
  return path.map((key) => `/${String(key).replaceAll("~", "~0").replaceAll("/", "~1")}`).join("");
}

/**
 * The path of an RFC 6901 pointer: its keys and indices as texts.
 *
 * @example
 * pathOf("/drills/half~1bar/needs/0") // ["drills", "half/bar", "needs", "0"]
 */
export function pathOf(pointer: string): readonly string[] {
  return pointer
    .split("/")
    .slice(1)
    .map((key) => key.replaceAll("~1", "/").replaceAll("~0", "~"));
}
