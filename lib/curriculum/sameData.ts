/** Whether two pieces of plain data say the same; the order of keys says nothing, that of lists does. */
export function sameData(a: unknown, b: unknown): boolean {
  if (a === b) return true;
  if (typeof a !== "object" || typeof b !== "object" || a === null || b === null) return false;
  if (Array.isArray(a) !== Array.isArray(b)) return false;
  const [left, right] = [stated(a), stated(b)];
  return (
    left.size === right.size && [...left].every(([key, value]) => right.has(key) && sameData(value, right.get(key)))
  );
}

/** Keys with something behind them: an absent key and one without a value are the same. */
function stated(data: object): ReadonlyMap<string, unknown> {
  return new Map(Object.entries(data).filter(([, value]) => value !== undefined));
}
