import { isScalar, type Node, Scalar } from "yaml";

/**
 * Offset in the YAML text of each UTF-16 code unit of a scalar's value, then of its end. Quotes, escapes, folded lines and indentation
 * are taken into account. For a node that is not a text: only its start.
 *
 * YAML keeps every character except blanks, line ends and escapes. So the text and the value are read side by side, and only these differ.
 */
export function offsetsInScalar(text: string, node: Node): Uint32Array {
  const [start, end] = node.range ?? [0, 0];
  if (!isScalar(node) || typeof node.value !== "string") return Uint32Array.of(start);
  const block = node.type === Scalar.BLOCK_LITERAL || node.type === Scalar.BLOCK_FOLDED;
  const quoted = node.type === Scalar.QUOTE_DOUBLE || node.type === Scalar.QUOTE_SINGLE;
  const from = block ? text.indexOf("\n", start) + 1 : quoted ? start + 1 : start;
  const to = quoted ? end - 1 : end;
  return walked({ text, value: node.value, from, to, quote: node.type ?? Scalar.PLAIN, block });
}

interface Walk {
  readonly text: string;
  readonly value: string;
  readonly from: number;
  readonly to: number;
  readonly quote: Scalar.Type;
  readonly block: boolean;
}

function walked(walk: Walk): Uint32Array {
  const { text, value, from, to } = walk;
  const offsets = new Uint32Array(value.length + 1);
  let source = from;
  let read = 0;
  while (source < to && read < value.length) {
    const run = blanksAt(text, source, to);
    if (run > 0) {
      const kept = walk.block ? blanksAt(value, read, value.length) : foldedLength(text.slice(source, source + run));
      for (let i = 0; i < kept; i++) offsets[read + i] = source + Math.min(i, run - 1);
      read += kept;
      source += run;
      continue;
    }
    const unit = unitAt(walk, source);
    offsets.fill(source, read, read + unit.value);
    read += unit.value;
    source += unit.source;
  }
  return offsets.fill(Math.min(source, to), read);
}

/** Length of one character, in code units of the text and of the value, at a character that is no blank. */
function unitAt({ text, quote }: Walk, at: number): { readonly source: number; readonly value: number } {
  if (quote === Scalar.QUOTE_SINGLE && text[at] === "'") return { source: 2, value: 1 };
  if (quote !== Scalar.QUOTE_DOUBLE || text[at] !== "\\") return { source: 1, value: 1 };
  const next = text[at + 1];
  if (next === "\n" || next === "\r") {
    const line = text[at + 1] === "\r" ? 3 : 2;
    return { source: line + /^[ \t]*/.exec(text.slice(at + line, at + line + 1000))![0].length, value: 0 };
  }
  if (next === "x") return { source: 4, value: 1 };
  if (next === "u") return { source: 6, value: 1 };
  if (next !== "U") return { source: 2, value: 1 };
  return { source: 10, value: Number.parseInt(text.slice(at + 2, at + 10), 16) > 0xffff ? 2 : 1 };
}

/** Length of the run of blanks and line ends at `at`. */
function blanksAt(text: string, at: number, to: number): number {
  let end = at;
  while (end < to && " \t\r\n".includes(text[end]!)) end += 1;
  return end - at;
}

/** Length of a run of blanks after folding in a flow scalar (YAML 1.2.2, section 6.5): one line end becomes a blank, n become n - 1, blanks inside a line stay. */
function foldedLength(blanks: string): number {
  const ends = blanks.split("\n").length - 1;
  return ends === 0 ? blanks.length : Math.max(1, ends - 1);
}
