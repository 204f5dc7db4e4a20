export { sheetCodes } from "./codes.js";
export {
  type Engraved,
  type Engraver,
  type EngravingLayout,
  type VerovioToolkit,
  verovioEngraver,
} from "./engraver.js";
export type { Player } from "./formPage.js";
export type { SheetOptions } from "./layOutSheet.js";
export { PAPERS, type PaperName } from "./look.js";
export { renderSheet, type Sheet } from "./renderSheet.js";
export type { Face, SheetFonts } from "./typeface.js";
