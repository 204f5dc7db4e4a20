import type { JournalEvent, Standing } from "../../schema/index.js";
import type { Complaint } from "./complaint.js";
import { examineEvent } from "./event/shape.js";
import { openReplay } from "./replay.js";

/** The standing after one more event, the next of the journal, or after the first. It is for events that this library wrote: it throws `RangeError` when one is not right. */
export function afterEvent(event: JournalEvent, after?: Standing): Standing {
  const replay = openReplay(after === undefined ? {} : { after });
  const examined = examineEvent(event);
  const complaints: readonly Complaint[] = "code" in examined ? [examined] : replay.count(examined);
  // Nobody but a programmer reads this, so it is not worded.
  if (complaints.length > 0) throw new RangeError(complaints.map(described).join("; "));
  return replay.close()!;
}

function described({ code, message }: Complaint): string {
  return `${code}: ${JSON.stringify(message.parameters)}`;
}
