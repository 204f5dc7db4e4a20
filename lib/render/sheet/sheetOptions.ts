import type { Instrument } from "../../pattern/index.js";
import type { Engraver } from "./engraving/engraver.js";
import type { PaperName, PrintSize } from "./pageStyle.js";
import type { SheetFonts } from "./typeface.js";
import type { SheetWords } from "./words.js";

/** Options of a sheet. */
export interface SheetOptions {
  readonly paper: PaperName;
  /** `large` for readers who need large print; `usual` when left out. */
  readonly size?: PrintSize;
  readonly engraver: Engraver;
  readonly fonts: SheetFonts;
  /** Title of the course, for the header. */
  readonly course?: string;
  /** Who made the course, for header, footer and the data of the file. */
  readonly imprint?: SheetImprint | undefined;
  /** Bytes of a PNG or JPEG picture, beside the title of the course. */
  readonly logo?: Uint8Array | undefined;
  /** Where the sheet leads, as a QR code and in the footer. */
  readonly address?: string | undefined;
  /** Instruments that the course describes, for the parts that accompany. */
  readonly instruments?: Readonly<Record<string, Instrument>> | undefined;
  /** What the sheet says, in the language of the player; English when left out. */
  readonly words?: SheetWords;
  /** BCP 47 language of the author's texts, for screen readers; that of the words when left out. */
  readonly language?: string;
}

/** Who made a course; each absent when it is not named. A pattern may name its own author and arranger. */
export interface SheetImprint {
  readonly author?: string;
  readonly arranger?: string;
  readonly copyright?: string;
  readonly licence?: string;
}
