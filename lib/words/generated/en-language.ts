// Generated from lib/words/catalogues by `npm run words`; change the catalogue instead.
// @ts-nocheck: the plural rule compares texts with numbers, as its compiler writes it.
import type { Language } from "../language.js";

export type Form = "one" | "other";

export const language: Language<Form> = {
  ...{"tag":"en","decimal":".","group":",","groupFrom":4,"between":", ","beforeLast":", "},
  plural: (n) => {
  const s = String(n).split('.'), v0 = !s[1];
  return n == 1 && v0 ? 'one' : 'other';
},
};
