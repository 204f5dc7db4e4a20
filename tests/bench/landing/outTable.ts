import { landingAlone, landingMoved } from "../../reference/players/habits/landings.js";
import { type Slip, slip } from "../../reference/players/habits/slips.js";
import type { Material } from "../../reference/players/materials.js";
import { everybody } from "./cast.js";
import type { Judged } from "./judged.js";
import { type PlayedTake, playRow, type Row } from "./row.js";
import { printShownTable } from "./shownTable.js";
import { SIZE } from "./size.js";
import { printTable } from "./textTable.js";
import { percent, shareText, wilson } from "./wilson.js";

const isOut = (judged: Judged): boolean => judged.true === "out";
const OFTEN = ["one", "every"] as const;

const SLIPS: readonly Slip[] = (["half a beat", "a beat", "half a bar", "a bar"] as const).flatMap((size) =>
  (["skips", "waits"] as const).flatMap((way) =>
    (["in the silence", "at the landing"] as const).flatMap((place) =>
      ([1, 2, "kept"] as const).flatMap((end) =>
        // Back after two bars is tried where it differs most from one: small slips at the landing. Waiting a bar leaves nothing to play before one.
        (end === 2 && (place === "in the silence" || size === "half a bar" || size === "a bar")) ||
        (end === 1 && size === "a bar" && way === "waits")
          ? []
          : OFTEN.map((often) => ({ size, way, place, end, often })),
      ),
    ),
  ),
);

/** Sizes that a list of usual slips does not have. */
const UNPLANNED: readonly Slip[] = (["a third of a beat", "three quarters of a beat", "two bars"] as const).flatMap(
  (size) =>
    (["skips", "waits"] as const).flatMap((way) =>
      (size === "two bars" ? (["kept"] as const) : ([1, "kept"] as const)).map(
        (end) => ({ size, way, place: "at the landing", end, often: "one" }) as const,
      ),
    ),
);

interface Kind {
  readonly kind: string;
  readonly row: Row;
}

const slipKinds = SLIPS.map((each): Kind => {
  const habit = slip(each);
  const kind = `${each.end === "kept" ? "slip kept" : "slip taken back"}, ${each.often}`;
  return { kind, row: { name: habit.name, player: everybody(habit), counts: isOut } };
});

const unplannedKinds = UNPLANNED.map((each): Kind => {
  const habit = slip(each);
  return { kind: "slip of another size, one", row: { name: habit.name, player: everybody(habit), counts: isOut } };
});

const landingKinds = OFTEN.flatMap((often): Kind[] => {
  const alone = [
    [200, 350],
    [350, 450],
    [-350, -200],
    [-450, -350],
  ].map(([least, most]) => landingAlone(often, least!, most!));
  const moved = [250, -250, 350].map((ms) => landingMoved(often, ms, 3));
  return [
    ...alone.map((habit) => ({
      kind: `landing alone, ${often}`,
      row: { name: habit.name, player: everybody(habit), counts: isOut },
    })),
    ...moved.map((habit) => ({
      kind: `landing moved, ${often}`,
      row: { name: habit.name, player: everybody(habit), counts: isOut },
    })),
  ];
});

/** Silences truly out by more than 1.5 times the limit because of a slip or a landing that is off: how often they are called within. */
export function printOutTable(materials: readonly Material[]): void {
  const kinds = [...landingKinds, ...slipKinds, ...unplannedKinds].filter(({ row }) => SIZE.rows.test(row.name));
  if (kinds.length === 0) return;
  const found = kinds.map(({ kind, row }) => ({ kind, name: row.name, takes: playRow(row, materials) }));
  const head = [
    "out by more than 1.5 x the limit",
    "n",
    "pitches: within",
    "beyond",
    "unclear",
    "landing off by < 30 ms",
    "slip right",
    "onsets only: within",
    "beyond",
    "unclear",
    "in besides: n",
    "beyond p / o",
  ];
  printTable(
    "Slips and landings off: silences truly out, per cent of n [95 %]",
    head,
    found.map(({ name, takes }) => cells(name, takes)),
  );
  const byKind = grouped(found, ({ kind }) => kind);
  const pooled = [...byKind].map(([kind, rows]) =>
    cells(
      kind,
      rows.flatMap(({ takes }) => takes),
    ),
  );
  printTable("The same by kind", head, pooled);
  printMatrix(materials, found);
  printShownTable(found.filter(({ kind }) => kind.startsWith("slip")).flatMap(({ takes }) => takes));
  const by = (name: string, key: (take: PlayedTake) => string): void => {
    const groups = grouped(
      found.flatMap(({ takes }) => takes),
      key,
    );
    printTable(
      name,
      head,
      [...groups].map(([group, takes]) => cells(group, takes)),
    );
  };
  by("The same by rung", ({ material }) => material.name);
  by("The same by grade", ({ player }) => String(player.temper));
}

/** Where a rung cannot show a slip without pitches: false within by rung and size, with pitches / without. */
function printMatrix(
  materials: readonly Material[],
  found: readonly { readonly name: string; readonly takes: readonly PlayedTake[] }[],
): void {
  const sizes = ["half a beat", "a beat", "half a bar", "a bar"] as const;
  const cell = (rung: string, size: string): string => {
    const takes = found
      .filter(({ name }) => new RegExp(`(skips|waits) ${size} `).test(name))
      .flatMap((row) => row.takes);
    const here = takes.filter(({ material }) => material.name === rung);
    const shares = (["pitched", "onsetsOnly"] as const).map((way) => {
      const out = here.flatMap((take) => take[way].silences).filter(isOut);
      return out.length === 0 ? "-" : percent(out.filter(({ verdict }) => verdict === "within").length / out.length);
    });
    return shares.join(" / ");
  };
  const rows = materials.map(({ name }) => [name, ...sizes.map((size) => cell(name, size))]);
  printTable("Slips called within, by rung and size, per cent: pitches / onsets only", ["rung", ...sizes], rows);
}

function cells(name: string, takes: readonly PlayedTake[]): readonly string[] {
  const pitched = takes.flatMap((take) => take.pitched.silences);
  const onsetsOnly = takes.flatMap((take) => take.onsetsOnly.silences);
  const out = pitched.filter(isOut);
  const outBlind = onsetsOnly.filter(isOut);
  const [inTime, inBlind] = [pitched, onsetsOnly].map((all) => all.filter((judged) => judged.true === "in")) as [
    Judged[],
    Judged[],
  ];
  const rate = (all: readonly Judged[], verdict: string): string =>
    all.length === 0 ? "-" : percent(all.filter((each) => each.verdict === verdict).length / all.length);
  const bounded = (all: readonly Judged[], verdict: string): string =>
    shareText(wilson(all.filter((each) => each.verdict === verdict).length, all.length));
  return [
    name,
    String(out.length),
    bounded(out, "within"),
    rate(out, "beyond"),
    rate(out, "unclear"),
    landingFound(out),
    slipFound(out),
    bounded(outBlind, "within"),
    rate(outBlind, "beyond"),
    rate(outBlind, "unclear"),
    String(inTime.length),
    `${rate(inTime, "beyond")} / ${rate(inBlind, "beyond")}`,
  ];
}

/** How near the landing must be found: 30 ms, our choice, below the smallest that a limit of these rungs would be asked about. */
const LANDING_NEAR = 30;

function landingFound(all: readonly Judged[]): string {
  const played = all.filter(({ truth }) => truth.landingPlayed);
  if (played.length === 0) return "-";
  return percent(
    played.filter(({ landingError }) => Math.abs(landingError ?? Infinity) < LANDING_NEAR).length / played.length,
  );
}

/** Of the silences with a slip, those whose finding names it to a tenth of a beat; "-" while findings name no slips. */
function slipFound(all: readonly Judged[]): string {
  const slipped = all.filter(({ truth, slipBeats }) => truth.slipBeats !== 0 && slipBeats !== undefined);
  if (slipped.length === 0) return "-";
  return percent(
    slipped.filter(({ truth, slipBeats }) => Math.abs(slipBeats! - truth.slipBeats) < 0.1).length / slipped.length,
  );
}

function grouped<T>(all: readonly T[], keyOf: (each: T) => string): ReadonlyMap<string, readonly T[]> {
  const groups = new Map<string, T[]>();
  for (const each of all) groups.set(keyOf(each), [...(groups.get(keyOf(each)) ?? []), each]);
  return groups;
}
