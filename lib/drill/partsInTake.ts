/** Between the parts that drop in some phrases and those that drop in the next: no name of a part has it. */
const THEN = ">";

/** Which parts drop in a take: the first set of parts for `each` phrases, the next for as many, and the last to the end of the take. */
export interface PartsInTake {
  /** At least one; each sorted, with every name once. */
  readonly sets: readonly (readonly string[])[];
  /** Number of phrases, from 1. */
  readonly each: number;
}

/** Reads a value of the parameter `parts`: "bass+kit", or "kit > bass+kit each 2 phrases". Without `each` a set holds for one phrase. */
export function parsePartsInTake(text: string): PartsInTake {
  const [, body = text, count = "1"] = text.includes(THEN)
    ? (/^(.*?)(?:\s+each\s+(\d{1,2})\s+phrases?)?$/.exec(text.trim()) ?? [])
    : [];
  return { sets: body.split(THEN).map((set) => sorted(set.split("+"))), each: Math.max(1, Number(count)) };
}

/** The canonical text, read back by `parsePartsInTake`. */
export function partsInTakeText({ sets, each }: PartsInTake): string {
  const texts = sets.map((set) => sorted(set).join("+"));
  return texts.length === 1 ? texts[0]! : `${texts.join(` ${THEN} `)} each ${each} phrase${each === 1 ? "" : "s"}`;
}

/** The parts that drop in a phrase (from 1) of a take. */
export function partsInPhrase({ sets, each }: PartsInTake, phrase: number): readonly string[] {
  return sets[Math.min(sets.length - 1, Math.floor((phrase - 1) / each))]!;
}

/** The canonical texts of the sets of a value, each once: values in which nothing grows. */
export function partsTextsIn(text: string): readonly string[] {
  const { sets } = parsePartsInTake(text);
  return [...new Set(sets.map((set) => set.join("+")))];
}

function sorted(parts: readonly string[]): readonly string[] {
  return [...new Set(parts.map((part) => part.trim()))].sort();
}
