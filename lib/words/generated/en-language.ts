// Generated from lib/words/catalogues by `npm run words`; change the catalogue instead.
import type { Language } from "../language.js";

export type Form = "one" | "other";

export const language: Language<Form> = {
  ...{"tag":"en","decimal":".","group":",","groupFrom":4,"between":", ","beforeLast":", "},
  plural: (n: any): any => {
  const s: any = String(n).split('.'), v0: any = !s[1];
  return n == 1 && v0 ? 'one' : 'other';
},
};
