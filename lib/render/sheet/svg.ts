import { base64 } from "./base64.js";
import { FACES, type Face, type Mark, type PathMark, type PictureMark, short, type TextMark } from "./drawing.js";
import { INK, type Paper } from "./pageStyle.js";
import type { SheetFonts } from "./typeface.js";

/** A page with its marks. */
export interface SheetPage {
  readonly paper: Paper;
  readonly title: string;
  readonly description: string;
  readonly marks: readonly Mark[];
}

/** Family name of the embedded fonts. */
const FAMILY = "Leeway Text";
const STYLE: Readonly<Record<Face, string>> = {
  other: "",
  regular: "",
  italic: ' font-style="italic"',
  bold: ' font-weight="bold"',
};
const FACE_RULE: Readonly<Record<(typeof FACES)[number], string>> = {
  regular: "",
  italic: "font-style:italic;",
  bold: "font-weight:bold;",
};
/** A path of more characters than this that occurs more than once is written once and referenced. */
const WORTH_SHARING = 60;

/** Writes a page as a self-contained SVG document of the paper's size, with the used fonts embedded and searchable text. */
export function svgOf({ paper, title, description, marks }: SheetPage, fonts: SheetFonts): string {
  const used = FACES.filter((face) => marks.some((mark) => mark.kind === "text" && mark.face === face));
  const shared = sharedOutlines(marks);
  const body = marks.map((mark) => elementOf(mark, shared));
  const faces = used.map(
    (face) =>
      `@font-face{font-family:"${FAMILY}";${FACE_RULE[face]}src:url(data:font/otf;base64,${base64(fonts[face])})}`,
  );
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${paper.cssWidth}" height="${paper.cssHeight}" viewBox="0 0 ${paper.width} ${paper.height}" role="img">`,
    `<title>${escaped(title)}</title><desc>${escaped(description)}</desc>`,
    `<defs><style>${faces.join("")}</style>`,
    ...[...shared].map(([d, id]) => `<path id="${id}" d="${d}"/>`),
    `</defs><rect width="${paper.width}" height="${paper.height}" fill="#fff"/>`,
    `<g font-family="'${FAMILY}'">`,
    ...body,
    "</g></svg>",
    "",
  ].join("\n");
}

/** Marks as the content of an SVG element that stands in a page: ids begin with `prefix`, and black is the colour of the text around it. */
export function inlineDrawing(marks: readonly Mark[], prefix: string): string {
  const shared = new Map([...sharedOutlines(marks)].map(([d, id]) => [d, `${prefix}${id}`]));
  const outlines = [...shared].map(([d, id]) => `<path id="${id}" d="${d}"/>`).join("");
  const body = marks.map((mark) => elementOf(mark, shared)).join("");
  return `<defs>${outlines}</defs>${body.replaceAll(`"${INK}"`, '"currentColor"')}`;
}

function elementOf(mark: Mark, shared: ReadonlyMap<string, string>): string {
  if (mark.kind === "text") return textElement(mark);
  return mark.kind === "picture" ? pictureElement(mark) : pathElement(mark, shared);
}

function pictureElement({ x, y, width, height, picture }: PictureMark): string {
  const size = `width="${short(width)}" height="${short(height)}"`;
  return `<image x="${short(x)}" y="${short(y)}" ${size} href="data:${picture.type};base64,${base64(picture.bytes)}"/>`;
}

function textElement({ x, y, text, face, size, ink }: TextMark): string {
  return `<text x="${short(x)}" y="${short(y)}" font-size="${short(size)}"${STYLE[face]} fill="${ink}" xml:space="preserve">${escaped(text)}</text>`;
}

function pathElement(mark: PathMark, shared: ReadonlyMap<string, string>): string {
  const { x, y, scaleX, scaleY, d, fill, stroke, width } = mark;
  const isScaled = scaleX !== 1 || scaleY !== 1;
  const moves =
    x === 0 && y === 0 && !isScaled
      ? ""
      : ` transform="translate(${short(x)} ${short(y)})${isScaled ? ` scale(${fine(scaleX)} ${fine(scaleY)})` : ""}"`;
  const paint = ` fill="${fill ?? "none"}"${stroke ? ` stroke="${stroke}" stroke-width="${short(width ?? 1)}"` : ""}`;
  const id = shared.get(d);
  return id === undefined ? `<path${moves}${paint} d="${d}"/>` : `<use href="#${id}"${moves}${paint}/>`;
}

function sharedOutlines(marks: readonly Mark[]): ReadonlyMap<string, string> {
  const counts = new Map<string, number>();
  for (const mark of marks)
    if (mark.kind === "path" && mark.d.length > WORTH_SHARING) counts.set(mark.d, (counts.get(mark.d) ?? 0) + 1);
  const often = [...counts].filter(([, count]) => count > 1).map(([d]) => d);
  return new Map(often.map((d, i) => [d, `g${i + 1}`]));
}

/** A scale factor rounded to a millionth. */
function fine(value: number): string {
  return String(Math.round(value * 1e6) / 1e6);
}

function escaped(text: string): string {
  return text
    .replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]|\p{Surrogate}/gu, "\ufffd")
    .replace(/[&<>"]/g, (letter) => `&#${letter.charCodeAt(0)};`);
}
