import PDFDocument from "pdfkit";
import { FACES, type Mark } from "./drawing.js";
import type { SheetPage } from "./svg.js";
import type { SheetFonts } from "./typeface.js";

/** Metadata of a PDF. */
export interface PdfInfo {
  readonly title: string;
  readonly subject: string;
  /** Absent when nobody is named. */
  readonly author?: string | undefined;
  readonly copyright?: string | undefined;
  /** What people may search for. */
  readonly keywords: readonly string[];
  /** BCP 47 language, for screen readers. */
  readonly language: string;
}

/**
 * Writes pages as one PDF with embedded font subsets and searchable text. The same pages give the same bytes: the file has no date, and its
 * identifier is computed from title, subject and content.
 */
export function pdfOf(
  pages: readonly SheetPage[],
  { info, fonts }: { readonly info: PdfInfo; readonly fonts: SheetFonts },
): Promise<Uint8Array> {
  const identity = fingerprint(JSON.stringify(pages));
  // The library takes a number from the date for the identifier, and a text that it does not use.
  const date = { getTime: () => identity, toISOString: () => "" };
  const document = new PDFDocument({
    autoFirstPage: false,
    displayTitle: true,
    lang: info.language,
    // Above version 1.3 the library adds XML metadata, which is malformed for a title with an ampersand and contains a date.
    pdfVersion: "1.3",
    info: {
      Title: info.title,
      Subject: info.subject,
      Keywords: info.keywords.filter((each) => each !== "").join(", "),
      ...(info.author === undefined ? {} : { Author: info.author }),
      ...(info.copyright === undefined ? {} : { Copyright: info.copyright }),
      Creator: "leeway",
      Producer: "leeway",
      CreationDate: date as never,
    },
  });
  Object.defineProperty(document.info, "CreationDate", { value: date, enumerable: false });
  const done = bytesOf(document);
  for (const face of FACES) document.registerFont(face, fonts[face] as never);
  for (const { paper, marks } of pages) {
    document.addPage({ size: [paper.width, paper.height], margin: 0 });
    for (const mark of marks) draw(document, mark);
  }
  document.end();
  return done;
}

function draw(document: PDFKit.PDFDocument, mark: Mark): void {
  if (mark.kind === "text") {
    document.font(mark.face).fontSize(mark.size).fillColor(mark.ink);
    document.text(mark.text, mark.x, mark.y, { baseline: "alphabetic", lineBreak: false });
    return;
  }
  if (mark.kind === "picture") {
    const { x, y, width, height, picture } = mark;
    document.image(picture.bytes as never, x, y, { width, height });
    return;
  }
  document.save().translate(mark.x, mark.y);
  if (mark.scaleX !== 1 || mark.scaleY !== 1) document.transform(mark.scaleX, 0, 0, mark.scaleY, 0, 0);
  document.path(mark.d);
  if (mark.stroke) document.lineWidth(mark.width ?? 1);
  if (mark.fill && mark.stroke) document.fillAndStroke(mark.fill, mark.stroke);
  else if (mark.fill) document.fill(mark.fill);
  else if (mark.stroke) document.stroke(mark.stroke);
  document.restore();
}

function bytesOf(document: PDFKit.PDFDocument): Promise<Uint8Array> {
  const chunks: Uint8Array[] = [];
  return new Promise((resolve, reject) => {
    document.on("data", (chunk: Uint8Array) => chunks.push(chunk));
    document.on("error", reject);
    document.on("end", () => {
      const whole = new Uint8Array(chunks.reduce((sum, chunk) => sum + chunk.length, 0));
      let at = 0;
      for (const chunk of chunks) {
        whole.set(chunk, at);
        at += chunk.length;
      }
      resolve(whole);
    });
  });
}

/** FNV-1a hash, 32 bits (draft-eastlake-fnv); not cryptographic. */
function fingerprint(text: string): number {
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
  return hash >>> 0;
}
