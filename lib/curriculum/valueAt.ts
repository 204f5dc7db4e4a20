/** What stands at a path of keys in plain data; `undefined` where the path leads nowhere. */
export function valueAt(value: unknown, path: readonly string[]): unknown {
  return path.reduce<unknown>(
    (holder, key) =>
      typeof holder === "object" && holder !== null && Object.hasOwn(holder, key)
        ? (holder as Readonly<Record<string, unknown>>)[key]
        : undefined,
    value,
  );
}
