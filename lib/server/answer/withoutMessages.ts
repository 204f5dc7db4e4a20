/** Data as it is sent: sentences, and not the messages they were made from. */
export function withoutMessages(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(withoutMessages);
  if (value === null || typeof value !== "object") return value;
  const kept = Object.entries(value).filter(([key]) => !["message", "messages", "followMessages"].includes(key));
  return Object.fromEntries(kept.map(([key, each]) => [key, withoutMessages(each)]));
}
