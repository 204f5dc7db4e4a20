import { element, textElement, type Xml } from "../../formats/musicxml/index.js";

const ROOT = /^([A-G])(bb?|##?|♭♭?|♯♯?)?(.*)$/;
const BASS = /\/([A-G])(bb?|##?|♭♭?|♯♯?)?$/;
const NO_CHORD = /^N\.?C\.?$/i;
const DEGREE = /([b#♭♯+-])(5|9|11|13)/g;

/**
 * Chord qualities as written, longest first, and their names in MusicXML 4.0 (`kind-value`). The rest of a chord symbol is written as
 * degrees. The `text` attribute keeps the symbol as it was written, so that a reader of the page loses nothing.
 */
const KINDS: readonly (readonly [RegExp, string])[] = [
  [/^(?:m|min|mi|-)\(?(?:maj|M|Δ)7\)?/, "major-minor"],
  [/^(?:m|min|mi|-)7(?:b|♭)5/, "half-diminished"],
  [/^(?:ø|half-dim)7?/, "half-diminished"],
  [/^(?:dim|°|o)7/, "diminished-seventh"],
  [/^(?:dim|°|o)/, "diminished"],
  [/^(?:aug|\+)7/, "augmented-seventh"],
  [/^(?:aug|\+)(?!\d)/, "augmented"],
  [/^(?:maj|ma|M|Δ)13/, "major-13th"],
  [/^(?:maj|ma|M|Δ)11/, "major-11th"],
  [/^(?:maj|ma|M|Δ)9/, "major-ninth"],
  [/^(?:(?:maj|ma|M)7|Δ7?)/, "major-seventh"],
  [/^(?:min|mi|m|-)13/, "minor-13th"],
  [/^(?:min|mi|m|-)11/, "minor-11th"],
  [/^(?:min|mi|m|-)9/, "minor-ninth"],
  [/^(?:min|mi|m|-)7/, "minor-seventh"],
  [/^(?:min|mi|m|-)6/, "minor-sixth"],
  [/^(?:maj|ma|M)(?!\d)/, "major"],
  [/^(?:min|mi|m|-)(?!\d)/, "minor"],
  [/^sus2/, "suspended-second"],
  [/^sus4?/, "suspended-fourth"],
  [/^13/, "dominant-13th"],
  [/^11/, "dominant-11th"],
  [/^9/, "dominant-ninth"],
  [/^7/, "dominant"],
  [/^6/, "major-sixth"],
  [/^5$/, "power"],
];

/** A chord symbol as a `harmony` element, `offset` divisions after the element before it. A symbol without a root is written as words. */
export function harmony(text: string, offset: number): Xml {
  const later = offset === 0 ? "" : textElement("offset", offset);
  if (NO_CHORD.test(text)) {
    const root = element("root", {}, [textElement("root-step", "C", { text: "" })]);
    return element("harmony", {}, [root, textElement("kind", "none", { text: "N.C." }), later]);
  }
  const bass = text.includes("6/9") ? null : BASS.exec(text);
  const match = ROOT.exec(bass ? text.slice(0, bass.index) : text);
  if (!match) {
    const words = element("direction-type", {}, [textElement("words", text)]);
    return element("direction", { placement: "above" }, [words, later]);
  }
  const [, step, signs, quality = ""] = match;
  const { kind, degrees } = kindOf(quality);
  return element("harmony", {}, [
    element("root", {}, [textElement("root-step", step!), alteration("root-alter", signs)]),
    textElement("kind", kind, quality === "" ? {} : { text: quality }),
    ...(bass ? [element("bass", {}, [textElement("bass-step", bass[1]!), alteration("bass-alter", bass[2])])] : []),
    ...degrees,
    later,
  ]);
}

function kindOf(quality: string): { readonly kind: string; readonly degrees: readonly Xml[] } {
  if (quality === "") return { kind: "major", degrees: [] };
  const known = KINDS.find(([form]) => form.test(quality));
  const rest = known ? quality.replace(known[0], "") : quality;
  const degrees = [...rest.matchAll(DEGREE)].map(([, sign, value]) =>
    element("degree", { "print-object": "no" }, [
      textElement("degree-value", value!),
      textElement("degree-alter", sign === "b" || sign === "♭" || sign === "-" ? -1 : 1),
      textElement("degree-type", value === "5" ? "alter" : "add"),
    ]),
  );
  const isAllSaid = rest.replace(DEGREE, "").replace(/[(),\s]/g, "") === "";
  if (known && isAllSaid) return { kind: known[1], degrees };
  if (isAllSaid) return { kind: "major", degrees };
  return { kind: "other", degrees: [] };
}

function alteration(name: string, signs: string | undefined): Xml {
  if (signs === undefined) return "";
  return textElement(name, /[b♭]/.test(signs) ? -signs.length : signs.length);
}
