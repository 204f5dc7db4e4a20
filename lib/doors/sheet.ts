/** The door of sheets: a score as a page to print. */
export type { RenderCode } from "../render/index.js";
export {
  type Engraver,
  type Face,
  type OverviewCourse,
  type OverviewOptions,
  PAPERS,
  type PaperName,
  renderOverview,
  renderSheet,
  type Sheet,
  type SheetFonts,
  type SheetOptions,
  sheetCodes,
  verovioEngraver,
} from "../render/sheet/index.js";
