// Generated from lib/words/catalogues by `npm run words`; change the catalogue instead.

import type { CatalogueOf } from "../catalogueOf.js";
import type { Form } from "./en-language.js";

export const messages: CatalogueOf<"sheet-problem", Form> = {
  "sheet-problem.paper-unknown": (p, w) => `a sheet is printed on ${w.text(p.papers, true)} or ${w.text(p.last)}; found ${w.text(p.found)}`,
  "sheet-problem.font-not-read": (p, w) => `the ${w.text(p.face)} face is an OpenType or TrueType font; found ${w.text(p.bytes)} bytes that are not`,
  "sheet-problem.picture-not-read": (p, w) => `a picture on a sheet is a PNG file without interlacing, or a JPEG file; found ${w.number(p.bytes)} bytes that are neither`,
  "sheet-problem.picture-not-read-remedy": () => `save the picture as PNG or JPEG`,
  "sheet-problem.letter-without-glyph": (p, w) => `every letter has a glyph in the font; ${w.text(p.letter)}, in ${w.text(p.text)}, has none`,
  "sheet-problem.letter-without-glyph-remedy": () => `give an OpenType or TrueType font that has it, such as one for Japanese`,
  "sheet-problem.sheet-package-missing": () => `sheets are set and written by the packages fontkit and pdfkit, which are not both installed`,
  "sheet-problem.sheet-package-missing-remedy": () => `npm install fontkit pdfkit`,
  "sheet-problem.engraving-failed": (p, w) => `the riff could not be ${ p.told === "told" ? `engraved: ${w.text(p.said)}` : `engraved`}`,
};
