import type { Drill } from "../../../drill/index.js";
import type { Block } from "../block.js";
import { besideEachOther } from "../columns.js";
import type { Player } from "../riff/formPage.js";
import { formsOf } from "../riff/riffForms.js";
import type { Typeface } from "../typeface.js";
import { criteriaBlock } from "./criteria.js";
import { climbList } from "./stepList.js";
import { climbTable } from "./stepTable.js";

/** White between two columns, in points. */
const GUTTER = 28;
/** Shares of the width for the steps: half, or more where that makes room for their table; our choice. */
const SHARES = [0.5, 0.62] as const;

/** The steps and the conditions beside each other. */
export function stepsBlock(
  drill: Drill,
  { player, type, width }: { player: Player | undefined; type: Typeface; width: number },
): Block {
  const form = formsOf(drill)[0]!;
  const setting = (share: number): Parameters<typeof climbTable>[1] => ({
    player,
    type,
    form,
    width: share * (width - GUTTER),
  });
  const share = SHARES.find((each) => climbTable(drill, setting(each)) !== undefined);
  const left = setting(share ?? SHARES[0]);
  const climb = climbTable(drill, left) ?? climbList(drill, left);
  const criteria = criteriaBlock(drill, { type, width: width - GUTTER - left.width });
  return besideEachOther(climb, criteria, left.width + GUTTER);
}
