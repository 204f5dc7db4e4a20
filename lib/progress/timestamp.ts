const RFC_3339 =
  /^\d{4}-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12]\d|3[01])T(?:[01]\d|2[0-3]):[0-5]\d:(?:[0-5]\d|60)(?:\.\d{1,9})?(?:Z|[+-](?:[01]\d|2[0-3]):[0-5]\d)$/;

/** Whether a text is a date and time as journals have it: RFC 3339 with seconds and offset, capital T and Z, such as "2026-03-02T17:30:00Z". */
export function isTimestamp(text: string): boolean {
  return RFC_3339.test(text);
}
