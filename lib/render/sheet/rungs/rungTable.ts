import { type Drill, type Ladder, ladderValue, rungs, type Settings, settingsText } from "../../../drill/index.js";
import { type Block, blockOf } from "../block.js";
import { frame, type Mark } from "../drawing.js";
import { INK, LEADING, MUTED, SIZES } from "../pageStyle.js";
import { LADDER_NAMES, type Print, printing, type RungSetting, rungsAlways, rungsTitle } from "./rungText.js";

/** Most columns and rows of a legible table; our choice. */
const MOST_COLUMNS = 8;
const MOST_ROWS = 14;
const BOX = 8.5;
const ROW = 15;
/** The narrowest column in points: a box and a number of three digits. */
const CELL = 31;

/** The rungs as a table with a tick box for each rung, with as many columns as fit; `undefined` when no table fits. */
export function rungTable(drill: Drill, setting: RungSetting): Block | undefined {
  const print = printing(drill, setting);
  for (const table of tablesOf(drill)) {
    const block = tableBlock(drill, table, { ...setting, print });
    if (block !== undefined) return block;
  }
  return undefined;
}

interface Table {
  /** Ladders whose values head the columns, and those whose values head the rows. */
  readonly across: readonly Ladder[];
  readonly down: readonly Ladder[];
}

/** The divisions of the ladders into columns and rows, most columns first; empty when there are too many rungs. */
function tablesOf({ ladders }: Drill): readonly Table[] {
  const product = (some: readonly Ladder[]): number => some.reduce((count, ladder) => count * ladder.count, 1);
  return ladders
    .map((_, i) => ({ across: ladders.slice(0, i + 1), down: ladders.slice(i + 1) }))
    .filter(({ across, down }) => product(across) <= MOST_COLUMNS && product(down) <= MOST_ROWS)
    .reverse();
}

/** All combinations of indices of some ladders; the index of the first ladder changes fastest. */
function counted(ladders: readonly Ladder[]): readonly (readonly number[])[] {
  return ladders.reduce<readonly (readonly number[])[]>(
    (all, { count }) => Array.from({ length: count }, (_, k) => all.map((digits) => [...digits, k])).flat(),
    [[]],
  );
}

function tableBlock(
  drill: Drill,
  { across, down }: Table,
  { type, width, print }: RungSetting & { print: Print },
): Block | undefined {
  const all = rungs(drill);
  const numbers = new Map(Array.from({ length: all.count }, (_, i) => [settingsText(all.at(i).settings), i + 1]));
  const start = all.at(0).settings;
  const columns = counted(across);
  const rows = counted(down);
  const label = { face: "regular", size: SIZES.label } as const;
  const rowText = (digits: readonly number[]): string =>
    digits.map((k, i) => print(down[i]!, ladderValue(down[i]!, k))).join("  ·  ");
  const names = [
    ...across.map(({ parameter }) => LADDER_NAMES[parameter]),
    down.map(({ parameter }) => LADDER_NAMES[parameter]).join("  ·  "),
  ];
  const margin =
    Math.max(
      ...rows.map((row) => type.width(rowText(row), label.face, label.size)),
      ...names.map((name) => type.width(name, "italic", SIZES.label)),
    ) + 12;
  const heads = columns.map((digits) => digits.map((k, i) => print(across[i]!, ladderValue(across[i]!, k))));
  const cell = Math.max(CELL, ...heads.flat().map((text) => type.width(text, label.face, label.size) + 8));
  if (margin + cell * columns.length > width) return undefined;
  const marks: Mark[] = [];
  let y = rungsTitle(marks, { type, count: all.count });
  for (let line = across.length - 1; line >= 0; line--) {
    y += SIZES.label * LEADING + 2;
    marks.push(
      ...type.line(LADDER_NAMES[across[line]!.parameter], { x: 0, y, face: "italic", size: SIZES.label, ink: MUTED }),
    );
    heads.forEach((texts, c) => {
      if (c > 0 && heads[c - 1]!.slice(line).join() === texts.slice(line).join()) return;
      marks.push(...type.line(texts[line]!, { x: margin + c * cell, y, ...label, ink: INK }));
    });
  }
  if (down.length > 0) {
    const last = names.at(-1)!;
    y += SIZES.label * LEADING + 2;
    marks.push(...type.line(last, { x: 0, y, face: "italic", size: SIZES.label, ink: MUTED }));
    y += 2;
  }
  for (const row of rows) {
    y += ROW;
    marks.push(...type.line(rowText(row), { x: 0, y, ...label, ink: INK }));
    columns.forEach((column, c) => {
      const values = [...across, ...down].map((ladder, i) => [
        ladder.parameter,
        ladderValue(ladder, [...column, ...row][i]!),
      ]);
      const number = numbers.get(settingsText({ ...start, ...(Object.fromEntries(values) as Partial<Settings>) }));
      if (number === undefined) return;
      const x = margin + c * cell;
      marks.push(frame(x, y - BOX + 1.2, { width: BOX, height: BOX, stroke: INK, line: 0.6 }));
      marks.push(...type.line(String(number), { x: x + BOX + 3, y, face: "regular", size: 7, ink: MUTED }));
    });
  }
  y = rungsAlways(marks, { type, drill, y });
  return blockOf(marks, { height: y + 4, gap: 22 });
}
