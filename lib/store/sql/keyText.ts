/**
 * A name in a form that every database can store and compare: the inside of its JSON text. Some databases refuse or change zero characters and
 * lone surrogates; here they are escaped, so that different names stay different. Ordinary names do not change.
 */
export function keyText(name: string): string {
  return JSON.stringify(name).slice(1, -1);
}

/** The inverse of `keyText`. */
export function nameOf(text: string): string {
  return JSON.parse(`"${text}"`) as string;
}
