import { SaxesParser, type SaxesTagPlain } from "saxes";
import type { PathMark } from "../drawing.js";
import { INK, STAFF } from "../pageStyle.js";
import { type Engraved, UNITS_PER_SPACE } from "./engraver.js";
import { onlyMakesRoom, SLIDE_DEPTH, type SlidingHead, slideMarks, slidingHead } from "./slides.js";

/** One system of an engraved riff. Coordinates in points from its left edge and from the top line of its staff. */
export interface System {
  readonly marks: readonly PathMark[];
  /** Texts above and below the staff, to be set in the font of the page. */
  readonly texts: readonly SystemText[];
  /** Top and bottom of the drawing, texts excluded. */
  readonly top: number;
  readonly bottom: number;
  readonly bars: readonly { readonly left: number; readonly right: number }[];
  /** Bounding boxes of the symbols: beams, stems, noteheads, accents, clefs and signatures. */
  readonly covered: readonly { readonly left: number; readonly right: number; readonly top: number }[];
  /** Left edge of the noteheads and rests of each onset; bar of the riff (0 is the first), and quarter notes from its start. */
  readonly heads: readonly { readonly bar: number; readonly quarters: number; readonly x: number }[];
}

export interface SystemText {
  /** `name`: of a staff of a score, before its first system. */
  readonly kind: "chord" | "words" | "name";
  readonly x: number;
  readonly y: number;
  readonly text: string;
}

/** Points to a unit of the engraved SVG. */
const SCALE = STAFF / 4 / UNITS_PER_SPACE;
const HEADS = new Set(["note", "rest", "mRest", "chord", "space"]);
/** Classes of texts that are kept; bar numbers are not. */
const SAID = ["harm", "dir", "reh", "tempo", "label"];
const INKED = new Set(["path", "polygon", "polyline", "rect", "ellipse", "use"]);
/** SMuFL accidentals as Unicode text: plain ones, those of chord symbols, those of figured bass. */
const SIGNS: Readonly<Record<string, string>> = {
  "\ue260": "♭",
  "\ue261": "♮",
  "\ue262": "♯",
  "\ue263": "♯♯",
  "\ue264": "♭♭",
  "\ued60": "♭",
  "\ued61": "♮",
  "\ued62": "♯",
  "\ued63": "♯♯",
  "\ued64": "♭♭",
  "\uea63": "♭♭",
  "\uea64": "♭",
  "\uea65": "♮",
  "\uea66": "♯",
  "\uea67": "♯♯",
};

/** Reads an engraved SVG into systems: paths, texts, and the positions of bars and notes. */
export function readEngraving({ svg, onsets }: Engraved): readonly System[] {
  const reading = new Reading(new Map(onsets.map((onset) => [onset.id, onset])));
  const parser = new SaxesParser();
  parser.on("opentag", (tag) => reading.open(tag));
  parser.on("text", (text) => reading.say(text));
  parser.on("closetag", () => reading.close());
  parser.write(svg).close();
  return reading.finished();
}

interface Frame {
  readonly name: string;
  readonly classes: readonly string[];
  readonly id: string;
}

interface Draft {
  readonly marks: PathMark[];
  readonly texts: SystemText[];
  readonly bars: { left: number; right: number }[];
  readonly heads: Map<string, { bar: number; quarters: number; left: number }>;
  readonly covered: { left: number; right: number; top: number }[];
  /** By the id of their note. */
  readonly slides: Map<string, SlidingHead>;
  staffTop: number | undefined;
  top: number;
  bottom: number;
}

/** The state of reading one SVG. */
class Reading {
  private readonly glyphs = new Map<string, string>();
  private readonly stack: Frame[] = [];
  private readonly systems: Draft[] = [];
  private readonly onsets: ReadonlyMap<string, Engraved["onsets"][number]>;
  /** Counted here, as the engraver's list of onsets leaves out a pick-up that is one rest. */
  private measure = -1;
  private text: { kind: SystemText["kind"]; x: number; y: number; said: string } | undefined;

  constructor(onsets: ReadonlyMap<string, Engraved["onsets"][number]>) {
    this.onsets = onsets;
  }

  open(tag: SaxesTagPlain): void {
    const attribute = (name: string): string => String(tag.attributes[name] ?? "");
    const classes = attribute("class").split(" ");
    this.stack.push({ name: tag.name, classes, id: attribute("id") });
    if (classes.includes("system") && !classes.includes("bounding-box")) this.systems.push(emptyDraft());
    if (classes.includes("measure") && !classes.includes("bounding-box")) this.measure += 1;
    const glyph = this.stack.at(-2)?.id;
    if (tag.name === "path" && this.systems.length === 0 && glyph) this.glyphs.set(glyph, attribute("d"));
    const system = this.systems.at(-1);
    if (system === undefined) return;
    if (tag.name === "text")
      this.text = {
        kind: this.inside("harm") ? "chord" : this.inside("label") ? "name" : "words",
        x: Number(attribute("x")),
        y: Number(attribute("y")),
        said: "",
      };
    if (tag.name === "tspan" && this.text?.said === "" && attribute("x") !== "") {
      this.text.x = Number(attribute("x"));
      this.text.y = Number(attribute("y") || this.text.y);
    }
    if (!INKED.has(tag.name)) return;
    if (this.stack.some((frame) => frame.classes.includes("bounding-box"))) this.bound(system, attribute);
    else this.ink(system, tag.name, attribute);
  }

  say(text: string): void {
    // Line breaks and indentation belong to the SVG source, not to the text.
    if (this.text) this.text.said += text.replace(/\s*\n\s*/g, "");
  }

  close(): void {
    if (this.stack.pop()?.name !== "text" || this.text === undefined) return;
    const said = this.text.said.replace(/\s+/g, " ").trim();
    const text = [...said].map((letter) => SIGNS[letter] ?? letter).join("");
    if (text !== "" && SAID.some((name) => this.inside(name))) this.systems.at(-1)!.texts.push({ ...this.text, text });
    this.text = undefined;
  }

  finished(): readonly System[] {
    return this.systems.map((draft) => {
      for (const head of draft.slides.values()) {
        draft.marks.push(...slideMarks(head, draft.covered));
        draft.bottom = Math.max(draft.bottom, head.y + SLIDE_DEPTH);
      }
      const staffTop = draft.staffTop ?? 0;
      const x = (value: number): number => value * SCALE;
      const y = (value: number): number => (value - staffTop) * SCALE;
      return {
        marks: draft.marks.map((mark) => ({
          ...mark,
          x: x(mark.x),
          y: y(mark.y),
          scaleX: mark.scaleX * SCALE,
          scaleY: mark.scaleY * SCALE,
        })),
        texts: draft.texts.map(({ kind, text, ...at }) => ({ kind, text, x: x(at.x), y: y(at.y) })),
        top: Math.min(y(draft.top), 0),
        bottom: Math.max(y(draft.bottom), STAFF),
        bars: draft.bars.map(({ left, right }) => ({ left: x(left), right: x(right) })),
        covered: draft.covered.map(({ left, right, top }) => ({ left: x(left), right: x(right), top: y(top) })),
        heads: [...draft.heads.values()]
          .map(({ bar, quarters, left }) => ({ bar, quarters, x: x(left) }))
          .sort((a, b) => a.bar - b.bar || a.quarters - b.quarters),
      };
    });
  }

  /** Reads a bounding box: of a staff, or of a symbol; for a note or rest also the left edge of its onset. */
  private bound(system: Draft, attribute: (name: string) => string): void {
    const [left, top] = [Number(attribute("x")), Number(attribute("y"))];
    const bottom = top + Number(attribute("height"));
    if (this.inside("harm") || this.inside("dir") || this.inside("mNum") || this.inside("label")) return;
    if (this.isRoom()) return;
    const isStaff = this.stack.at(-2)?.classes.includes("staff") === true;
    if (!isStaff) system.covered.push({ left, right: left + Number(attribute("width")), top });
    system.top = Math.min(system.top, top);
    system.bottom = Math.max(system.bottom, bottom);
    const owner = this.stack.at(-3);
    this.widenSlide(system, { left, right: left + Number(attribute("width")) });
    if (owner === undefined || !owner.classes.some((each) => HEADS.has(each))) return;
    const slides = slidingHead(owner.id, { left, right: left + Number(attribute("width")), y: (top + bottom) / 2 });
    if (slides) system.slides.set(owner.id, slides);
    const onset = this.onsets.get(owner.id);
    if (onset === undefined) return;
    const key = `${this.measure} ${onset.quarters}`;
    const known = system.heads.get(key)?.left ?? left;
    system.heads.set(key, { bar: this.measure, quarters: onset.quarters, left: Math.min(left, known) });
  }

  /** Whether what is read only makes room for a scoop. */
  private isRoom(): boolean {
    return this.inside("accid") && this.stack.some(({ id }) => onlyMakesRoom(id));
  }

  /** An accidental or dots belong to the head beside which a slide stands. */
  private widenSlide(system: Draft, { left, right }: { left: number; right: number }): void {
    const note = this.stack.findLast(({ id }) => system.slides.has(id));
    if (note === undefined) return;
    const head = system.slides.get(note.id)!;
    if (this.inside("accid")) head.left = Math.min(head.left, left);
    if (this.inside("dots")) head.right = Math.max(head.right, right);
  }

  private ink(system: Draft, name: string, attribute: (name: string) => string): void {
    if (this.isRoom()) return;
    const number = (key: string): number => Number(attribute(key) || 0);
    const plain = { kind: "path", x: 0, y: 0, scaleX: 1, scaleY: 1 } as const;
    if (name === "use") {
      const [, x = "0", y = "0", scaleX = "1", scaleY = "1"] =
        /translate\(([-\d.]+),\s*([-\d.]+)\)\s*scale\(([-\d.]+),\s*([-\d.]+)\)/.exec(attribute("transform")) ?? [];
      const d = this.glyphs.get((attribute("xlink:href") || attribute("href")).slice(1));
      // The y axis of glyphs points upwards.
      if (d)
        system.marks.push({
          ...plain,
          x: Number(x),
          y: Number(y),
          scaleX: Number(scaleX),
          scaleY: -Number(scaleY),
          d,
          fill: INK,
        });
    } else if (name === "path") {
      const d = attribute("d");
      const staffLine = this.stack.at(-2)?.classes.includes("staff")
        ? /^M(-?[\d.]+) (-?[\d.]+) L(-?[\d.]+)/.exec(d)
        : null;
      if (staffLine)
        this.staffLine(system, { left: Number(staffLine[1]), y: Number(staffLine[2]), right: Number(staffLine[3]) });
      const isCurve = /[Cc]/.test(d);
      system.marks.push({ ...plain, d, stroke: INK, width: number("stroke-width"), ...(isCurve ? { fill: INK } : {}) });
    } else if (name === "polygon" || name === "polyline") {
      const points = attribute("points").trim().split(/\s+/).join(" L");
      system.marks.push(
        name === "polygon"
          ? { ...plain, d: `M${points}Z`, fill: INK }
          : { ...plain, d: `M${points}`, stroke: INK, width: number("stroke-width") || 20 },
      );
    } else if (name === "rect") {
      system.marks.push({
        ...plain,
        x: number("x"),
        y: number("y"),
        d: `M0 0H${number("width")}V${number("height")}H0Z`,
        fill: INK,
      });
    } else if (name === "ellipse") {
      const [rx, ry] = [number("rx"), number("ry")];
      system.marks.push({
        ...plain,
        x: number("cx"),
        y: number("cy"),
        d: `M${-rx} 0A${rx} ${ry} 0 1 0 ${rx} 0A${rx} ${ry} 0 1 0 ${-rx} 0Z`,
        fill: INK,
      });
    }
  }

  private staffLine(system: Draft, line: { left: number; right: number; y: number }): void {
    system.staffTop = Math.min(system.staffTop ?? line.y, line.y);
    const last = system.bars.at(-1);
    if (last?.left !== line.left) system.bars.push({ left: line.left, right: line.right });
  }

  private inside(name: string): boolean {
    return this.stack.some(({ classes }) => classes.includes(name));
  }
}

function emptyDraft(): Draft {
  return {
    marks: [],
    texts: [],
    bars: [],
    heads: new Map(),
    covered: [],
    slides: new Map(),
    staffTop: undefined,
    top: Number.POSITIVE_INFINITY,
    bottom: Number.NEGATIVE_INFINITY,
  };
}
