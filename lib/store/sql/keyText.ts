/**
 * A name as databases can hold and compare it: the inside of its JSON text, so that zero characters and lone surrogates, which some
 * databases refuse or change, are spelled out and different names stay different. Ordinary names stay as they are.
 */
export function keyText(name: string): string {
  return JSON.stringify(name).slice(1, -1);
}

/** The name again. */
export function nameOf(text: string): string {
  return JSON.parse(`"${text}"`) as string;
}
