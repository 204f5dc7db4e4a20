import { escapeText } from "../chart/svg.js";

/** A piece of an HTML document, or text: anything else is escaped before it becomes one. */
export interface Html {
  readonly html: string;
}

type Piece = Html | string | number | undefined | readonly Piece[];

/**
 * Markup with what is put into it escaped, unless it is markup itself: names come from people, and some of them try what happens.
 *
 * @example html`<p>${"<script>"}</p>` // <p>&lt;script&gt;</p>
 */
export function html(markup: TemplateStringsArray, ...pieces: readonly Piece[]): Html {
  return { html: markup.reduce((text, piece, i) => `${text}${written(pieces[i - 1])}${piece}`) };
}

/** Markup that is known to be safe: charts, whose texts are escaped where they are drawn. */
export function known(markup: string): Html {
  return { html: markup };
}

function written(piece: Piece): string {
  if (piece === undefined) return "";
  if (typeof piece === "number") return `${piece}`;
  if (typeof piece === "string") return escapeText(piece);
  return "html" in piece ? piece.html : piece.map(written).join("");
}
