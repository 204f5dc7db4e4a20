/**
 * JSON in canonical form (RFC 8785): keys sorted by UTF-16 code units, no white space, numbers and strings as ECMAScript writes them.
 * Equal data give equal bytes. Keys with the value `undefined` are left out.
 *
 * Throws `TypeError` for values that JSON cannot hold: functions, symbols, NaN and infinities.
 * @example canonicalJson({ b: 1, a: [true, null] }) // '{"a":[true,null],"b":1}'
 */
export function canonicalJson(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(canonicalJson).join(",")}]`;
  if (value !== null && typeof value === "object") {
    const entries = Object.entries(value).filter(([, held]) => held !== undefined);
    // Keys of one object are never equal.
    entries.sort(([a], [b]) => (a < b ? -1 : 1));
    return `{${entries.map(([key, held]) => `${JSON.stringify(key)}:${canonicalJson(held)}`).join(",")}}`;
  }
  const text = typeof value === "number" && !Number.isFinite(value) ? undefined : JSON.stringify(value);
  if (text === undefined) throw new TypeError(`JSON cannot hold ${String(value)}`);
  return text;
}
