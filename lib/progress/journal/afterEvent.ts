import type { JournalEvent, Standing } from "../../schema/index.js";
import { applyEvent } from "./applyEvent.js";
import type { Complaint } from "./complaint.js";
import { ofOtherJournal } from "./event/problems.js";
import { examineEvent } from "./event/shape.js";
import { finishedStanding, mutableStanding } from "./mutableStanding.js";

/** The standing after one more event, the next of the journal, or after the first. It is for events that this library wrote: it throws `RangeError` when one is not right. */
export function afterEvent(event: JournalEvent, after?: Standing): Standing {
  const standing = mutableStanding(after);
  const examined = examineEvent(event);
  const wrong =
    "code" in examined ? examined : ((after && ofOtherJournal(examined, after)) ?? applyEvent(standing, examined));
  // Nobody but a programmer reads this, so it is not worded.
  if (wrong !== undefined) throw new RangeError(described(wrong));
  return finishedStanding(standing)!;
}

function described({ code, message }: Complaint): string {
  return `${code}: ${JSON.stringify(message.parameters)}`;
}
