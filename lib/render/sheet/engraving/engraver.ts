import { failure, success } from "../../../base/index.js";
import type { Result } from "../../problem.js";
import { sheetProblem } from "../codes.js";
import { sayProblem } from "../say.js";

/** Engraves MusicXML as SVG. `verovioEngraver` makes one from a library. */
export interface Engraver {
  engrave(musicXml: string, layout: EngravingLayout): Result<Engraved>;
}

export interface EngravingLayout {
  /** Width of the systems, in staff spaces (a staff is four high). */
  readonly width: number;
  /** `one`: all bars in one system of any width. `as written`: system breaks as in the MusicXML. */
  readonly systems: "one" | "as written";
}

export interface Engraved {
  /** SVG with `UNITS_PER_SPACE` units to a staff space. */
  readonly svg: string;
  /** When each note and rest begins: the id of its element in the SVG, its measure (0 is the first), and quarter notes from the measure's start. */
  readonly onsets: readonly { readonly id: string; readonly measure: number; readonly quarters: number }[];
}

/** Units of the engraved SVG to a staff space. */
export const UNITS_PER_SPACE = 180;

/** The part of Verovio's toolkit that is used. */
export interface VerovioToolkit {
  setOptions(options: Record<string, unknown>): void;
  loadData(data: string): unknown;
  getLog(): string;
  getPageCount(): number;
  renderToSVG(page: number): string;
  renderToTimemap(options: Record<string, unknown>): unknown;
}

/**
 * An engraver from a Verovio toolkit (an optional peer: LGPL-3.0-or-later, `npm install verovio`), made by whoever loads it. Equal music in equal rooms is
 * engraved once, for as long as it is among the latest: drills of one riff, and readers of one clef, share what is drawn.
 *
 * @example
 * import createModule from "verovio/wasm";
 * import { VerovioToolkit } from "verovio/esm";
 * const engraver = verovioEngraver(new VerovioToolkit(await createModule()));
 */
export function verovioEngraver(toolkit: VerovioToolkit): Engraver {
  return rememberingEngraver({
    engrave(musicXml, { width, systems }) {
      toolkit.setOptions({
        ...OPTIONS,
        breaks: systems === "one" ? "none" : "encoded",
        pageWidth: Math.round((width * UNITS_PER_SPACE) / 10),
      });
      const isLoaded = Boolean(toolkit.loadData(musicXml)) && toolkit.getPageCount() > 0;
      const svg = isLoaded ? toolkit.renderToSVG(1) : "";
      if (!svg.includes('class="measure"')) {
        const said = toolkit.getLog().trim().split("\n")[0] ?? "";
        const message = sayProblem("sheet-problem.engraving-failed", { told: said === "" ? "silent" : "told", said });
        return failure(sheetProblem("ENGRAVING_FAILED", message));
      }
      return success({ svg, onsets: onsetsIn(toolkit.renderToTimemap({ includeMeasures: true, includeRests: true })) });
    },
  });
}

/** Most characters of engravings that are kept, with the music they are of: some hundreds of riffs. Our choice. */
const MOST = 32_000_000;

/** An engraver that gives equal music in an equal layout what it gave before, until `most` characters of later engravings have come since it was last asked for. */
export function rememberingEngraver(engraver: Engraver, most: number = MOST): Engraver {
  const known = new Map<string, { readonly made: ReturnType<Engraver["engrave"]>; readonly size: number }>();
  let held = 0;
  return {
    engrave(musicXml, layout) {
      const key = `${layout.width} ${layout.systems} ${musicXml}`;
      const found = known.get(key);
      const made = found?.made ?? engraver.engrave(musicXml, layout);
      const size = found?.size ?? key.length + (made.ok ? made.value.svg.length : 0);
      // A map is gone through in the order of insertion: the latest comes last.
      if (!known.delete(key)) held += size;
      known.set(key, { made, size });
      for (const [oldest, each] of known) {
        if (held <= most) break;
        known.delete(oldest);
        held -= each.size;
      }
      return made;
    },
  };
}

/** `unit` 9 gives a staff space of 180 units. The seed of the ids makes the output the same for the same music. */
const OPTIONS = {
  inputFrom: "xml",
  adjustPageHeight: true,
  bottomMarginHarm: 1.2,
  footer: "none",
  header: "none",
  justifyVertically: false,
  measureMinWidth: 30,
  minLastJustification: 0,
  mnumInterval: 0,
  noJustification: false,
  pageHeight: 60000,
  pageMarginBottom: 0,
  pageMarginLeft: 0,
  pageMarginRight: 0,
  pageMarginTop: 0,
  scale: 100,
  smuflTextFont: "none",
  spacingSystem: 12,
  svgBoundingBoxes: true,
  svgViewBox: true,
  unit: 9,
  xmlIdSeed: 1,
};

function onsetsIn(timemap: unknown): Engraved["onsets"] {
  const entries = (typeof timemap === "string" ? JSON.parse(timemap) : timemap) as readonly {
    readonly qstamp: number;
    readonly measureOn?: string;
    readonly on?: readonly string[];
    readonly restsOn?: readonly string[];
  }[];
  let measure = -1;
  let start = 0;
  return entries.flatMap(({ qstamp, measureOn, on = [], restsOn = [] }) => {
    if (measureOn !== undefined) {
      measure += 1;
      start = qstamp;
    }
    return [...on, ...restsOn].map((id) => ({ id, measure, quarters: qstamp - start }));
  });
}
