import { add, compare, nearestName, type Problem, placedUnder, subtract } from "../base/index.js";
import { type PartDocument, pointerTo } from "../schema/index.js";
import { problem } from "./codes.js";
import { compileMusic, type Music, type MusicSetting, type Room } from "./compileMusic.js";
import { lengthText } from "./frame.js";
import { INSTRUMENTS } from "./instruments.js";
import type { Instrument, Part } from "./model.js";
import { rangeProblems } from "./written.js";

/** A part with all its variants; the one variant of a part without any is called "". Pointers are relative to the document. */
export function compilePart(
  name: string,
  document: PartDocument,
  setting: MusicSetting & { readonly instruments: Readonly<Record<string, Instrument>>; readonly room: Room },
): { readonly part: Part; readonly problems: readonly Problem[] } {
  const problems: Problem[] = [];
  const variants = Object.entries(document.variants ?? {});
  const played = new Map<string, Music>();
  if (document.variants === undefined) {
    const music = compileMusic(document, setting);
    setting.room.notes -= music.notes.length;
    played.set("", music);
  } else {
    const beside = (["notes", "voices", "file"] as const).filter((source) => document[source] !== undefined);
    if (beside.length > 0) {
      const message = `a part says what it plays in one way; found ${beside.join(" and ")} beside variants`;
      problems.push(problem("PART_WITH_TWO_MUSICS", message, { pointer: `/${beside[0]}` }, "make it a variant"));
    }
    if (variants.length === 0)
      problems.push(problem("PART_WITHOUT_MUSIC", "a part has at least one variant", { pointer: "/variants" }));
    for (const [variant, document] of variants) {
      if (setting.room.notes < 0) break;
      const music = compileMusic(document, setting);
      setting.room.notes -= music.notes.length;
      played.set(variant, music);
    }
  }
  const instrument =
    document.instrument === undefined ? undefined : instrumentNamed(document.instrument, setting.instruments);
  if (instrument === undefined && document.instrument !== undefined) {
    problems.push(unknownInstrument(document.instrument, setting.instruments));
  }
  for (const [variant, music] of played) {
    const pointer = document.variants === undefined ? "" : pointerTo(["variants", variant]);
    problems.push(...music.problems.map((p) => placedUnder(p, pointer)));
    if (instrument) problems.push(...rangeProblems({ notes: music.notes, instrument, where: { pointer } }));
    problems.push(...pickupProblems(music, setting, pointer));
  }
  const kinds = new Set([...played.values()].filter((m) => m.notes.length > 0).map((m) => m.kind));
  if (kinds.size > 1) {
    const message = `the variants of a part are all pitched or all percussion; those of ${name} are mixed`;
    problems.push(problem("PART_MIXES_KINDS", message, { pointer: "/variants" }));
  }
  const part: Part = {
    name,
    kind: [...kinds][0] ?? [...played.values()][0]?.kind ?? "pitched",
    ...(document.instrument === undefined ? {} : { instrument: document.instrument }),
    variants: Object.fromEntries([...played].map(([variant, music]) => [variant, music.notes])),
  };
  return { part, problems };
}

/** An instrument by name: the curriculum's own first, then the table. */
export function instrumentNamed(name: string, own: Readonly<Record<string, Instrument>>): Instrument | undefined {
  if (Object.hasOwn(own, name)) return own[name];
  return Object.hasOwn(INSTRUMENTS, name) ? INSTRUMENTS[name] : undefined;
}

/** The problem INSTRUMENT_UNKNOWN, with the nearest name. */
export function unknownInstrument(
  name: string,
  own: Readonly<Record<string, Instrument>>,
  pointer = "/instrument",
): Problem {
  const near = nearestName(name, [...Object.keys(own), ...Object.keys(INSTRUMENTS)]);
  const message = `no instrument is called ${JSON.stringify(name.slice(0, 80))}`;
  const remedy = near === undefined ? "describe it under instruments" : `write ${near}`;
  return problem("INSTRUMENT_UNKNOWN", message, { pointer }, remedy);
}

/** On repeats the pick-up sounds at the end of the last bar: one player cannot play both. Percussion can: each voice is its own. */
function pickupProblems(music: Music, { frame }: MusicSetting, pointer: string): Problem[] {
  if (music.kind === "percussion" || !music.notes.some((note) => note.position.n < 0)) return [];
  const from = subtract(frame.length, frame.pickup);
  const meeting = music.notes.filter((note) => compare(add(note.position, note.length), from) > 0);
  if (meeting.length === 0) return [];
  const last = frame.bars.at(-1)!;
  const message = `on repeats the pick-up sounds at the end of bar ${last.number}, which is to be silent for ${lengthText(frame.pickup, last.meter)}; ${meeting.length} of its notes sound there`;
  return [problem("PICKUP_MEETS_LAST_BAR", message, { pointer }, "end the last bar with rests as long as the pick-up")];
}
