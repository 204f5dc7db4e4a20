import type { DrillChange, EditionChanges, Loss } from "../../curriculum/index.js";
import type { Parameter } from "../../drill/index.js";
import type { Words } from "../../words/index.js";
import { plain } from "../output/printableText.js";
import { alterationText } from "./alterationText.js";

/** The changes of a new edition to the rungs of each drill, as text. */
export function comparisonText(
  course: string,
  { from, to, drills, added, isChanged }: EditionChanges,
  words: Words,
): string {
  const { say } = words;
  const edition = { course, from, to };
  if (!isChanged) return line(0, say("cli.edition-unchanged", edition));
  const others = drills.filter((change) => !isUnchanged(change));
  const same = drills.filter(isUnchanged).map(({ drill }) => drill);
  const lines = [
    line(0, say("cli.edition", edition)),
    ...others.map((change) => drillText(change, words)),
    ...added.map((drill) => line(1, say("cli.new-drill", { drill }))),
  ];
  if (same.length > 0) lines.push(line(1, say("cli.unchanged", { drills: same })));
  return lines.join("");
}

function isUnchanged({ drill, now, rungs, kept, fresh, alterations }: DrillChange): boolean {
  return drill === now && kept === rungs && fresh === 0 && alterations.length === 0;
}

/** What a row of a drill tells; `heard`, `asked` and `told` are what an alteration is to a student. */
const ROWS = ["lost", "new", "heard", "asked", "told"] as const;

function drillText(change: DrillChange, words: Words): string {
  const { drill, now, losses, fresh, gains, alterations } = change;
  const { say } = words;
  const name = now === undefined || now === drill ? drill : say("cli.renamed", { drill, now });
  const credit = creditText(change, words);
  const head =
    fresh === 0
      ? say("cli.credit", { drill: name, credit })
      : say("cli.credit-and-new", { drill: name, credit, fresh });
  const rows: readonly (readonly [what: (typeof ROWS)[number], text: string])[] = [
    ...losses.map((loss) => ["lost", lossText(loss, words)] as const),
    ...gains.map(
      (gain) => ["new", say("cli.values", { setting: nameOf(gain, words), values: named(gain, words) })] as const,
    ),
    ...alterations.map((alteration) => [alteration.effect, alterationText(alteration, words)] as const),
  ];
  const width = Math.max(...ROWS.map((what) => say("cli.changes", { what }).length));
  return [
    line(1, head),
    ...rows.map(([what, text]) => line(2, `${say("cli.changes", { what }).padEnd(width)}  ${text}`)),
  ].join("");
}

function creditText({ rungs, kept }: DrillChange, { say }: Words): string {
  if (kept === rungs) return say("cli.all-keep-credit", { rungs });
  return say("cli.some-keep-credit", { kept, rungs, lost: rungs - kept });
}

function lossText(loss: Loss, words: Words): string {
  const { say } = words;
  switch (loss.reason) {
    case "drill removed":
      return say("cli.drill-gone");
    case "setting added":
      return say("cli.setting-said", { setting: nameOf(loss, words) });
    case "setting removed":
      return say("cli.setting-not-said", { setting: nameOf(loss, words) });
    case "values removed":
      return say("cli.values-gone", {
        setting: nameOf(loss, words),
        values: named(loss, words),
        count: loss.values ?? 0,
      });
    case "restarts elsewhere":
      return say("cli.ladders-differ");
  }
}

/** The name of a setting in words; every loss of a setting says which one. */
function nameOf({ parameter }: { readonly parameter?: Parameter }, { say }: Words): string {
  return parameter === undefined ? "" : say("setting.name", { parameter });
}

function named(
  { examples = [], values = 0 }: { readonly examples?: readonly string[]; readonly values?: number },
  { say }: Words,
): string {
  const names = say("cli.list", { names: examples });
  const more = values - examples.length;
  return more > 0 ? say("cli.and-more", { names, count: more }) : names;
}

function line(depth: number, text: string): string {
  return `${"  ".repeat(depth)}${plain(text)}\n`;
}
