export { sheetCodes } from "./codes.js";
export type { Face } from "./drawing.js";
export { mixesText } from "./drillText.js";
export {
  type Engraved,
  type Engraver,
  type EngravingLayout,
  type VerovioToolkit,
  verovioEngraver,
} from "./engraving/engraver.js";
export type { OverviewCourse, OverviewOptions } from "./layOutOverview.js";
export { PAPERS, type PaperName, type PrintSize } from "./pageStyle.js";
export { packageMissing, renderOverview, renderSheet, renderSheets, type Sheet } from "./renderSheet.js";
export { formText } from "./riff/riffForms.js";
export { type PictureBar, type RiffPicture, type RiffPictureOptions, riffPictures } from "./riff/riffPictures.js";
export type { SheetImprint, SheetOptions } from "./sheetOptions.js";
export type { Player, SheetReader } from "./sheetReader.js";
export type { SheetFonts } from "./typeface.js";
