export { sheetCodes } from "./codes.js";
export type { Face } from "./drawing.js";
export {
  type Engraved,
  type Engraver,
  type EngravingLayout,
  type VerovioToolkit,
  verovioEngraver,
} from "./engraving/engraver.js";
export type { SheetOptions } from "./layOutSheet.js";
export { PAPERS, type PaperName } from "./pageStyle.js";
export { renderSheet, type Sheet } from "./renderSheet.js";
export type { Player } from "./riff/formPage.js";
export { formText } from "./riff/riffForms.js";
export { type RiffPicture, type RiffPictureOptions, riffPictures } from "./riff/riffPictures.js";
export type { SheetFonts } from "./typeface.js";
