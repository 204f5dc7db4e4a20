// Generated from lib/words/catalogues by `npm run words`; change the catalogue instead.

import type { CatalogueOf } from "../catalogueOf.js";
import type { Form } from "./en-language.js";

export const messages: CatalogueOf<"value", Form> = {
  "value.length": (p, w) => `${w.text(p.amount)} ${ p.unit === "bar" ? p.many === "up-to-one" ? `bar` : `bars` : p.unit === "beat" ? p.many === "up-to-one" ? `beat` : `beats` : p.unit === "note" ? `note${ p.many === "up-to-one" ? `` : ``}` : `whole ${ p.many === "up-to-one" ? `note` : `notes`}`}`,
  "value.growing": (p, w) => `${w.text(p.from)} growing to ${w.text(p.to)}`,
  "value.then": (p, w) => `${w.text(p.before)}, then ${w.text(p.after)}`,
  "value.rise": (p, w) => `${w.text(p.by)} after every ${ w.plural(p.each, { one: `phrase`, other: `${w.number(p.each)} phrases` })}`,
  "value.no-rise": () => `none`,
  "value.key-octave": (p, w) => `${w.text(p.key)}, an octave ${ p.way === "higher" ? `higher` : `lower`}`,
  "value.no-open-bars": () => `none`,
  "value.tonic": (p) => p.note === "c-flat" ? `C♭` : p.note === "c-natural" ? `C` : p.note === "c-sharp" ? `C♯` : p.note === "d-flat" ? `D♭` : p.note === "d-natural" ? `D` : p.note === "d-sharp" ? `D♯` : p.note === "e-flat" ? `E♭` : p.note === "e-natural" ? `E` : p.note === "e-sharp" ? `E♯` : p.note === "f-flat" ? `F♭` : p.note === "f-natural" ? `F` : p.note === "f-sharp" ? `F♯` : p.note === "g-flat" ? `G♭` : p.note === "g-natural" ? `G` : p.note === "g-sharp" ? `G♯` : p.note === "a-flat" ? `A♭` : p.note === "a-natural" ? `A` : p.note === "a-sharp" ? `A♯` : p.note === "b-flat" ? `B♭` : p.note === "b-natural" ? `B` : `B♯`,
  "value.minor-tonic": (p) => p.note === "c-flat" ? `C♭` : p.note === "c-natural" ? `C` : p.note === "c-sharp" ? `C♯` : p.note === "d-flat" ? `D♭` : p.note === "d-natural" ? `D` : p.note === "d-sharp" ? `D♯` : p.note === "e-flat" ? `E♭` : p.note === "e-natural" ? `E` : p.note === "e-sharp" ? `E♯` : p.note === "f-flat" ? `F♭` : p.note === "f-natural" ? `F` : p.note === "f-sharp" ? `F♯` : p.note === "g-flat" ? `G♭` : p.note === "g-natural" ? `G` : p.note === "g-sharp" ? `G♯` : p.note === "a-flat" ? `A♭` : p.note === "a-natural" ? `A` : p.note === "a-sharp" ? `A♯` : p.note === "b-flat" ? `B♭` : p.note === "b-natural" ? `B` : `B♯`,
  "value.key-name": (p, w) => `${w.text(p.tonic)} ${w.text(p.scale)}`,
  "value.in": (p, w) => `${w.text(p.name)} in ${w.text(p.tonic)}`,
  "value.list": (p, w) => `${w.text(p.others, true)} and ${w.text(p.last)}`,
};
