/** Replay of journals against JSON.parse of the same lines, and by their length. */
import { fold, foldJournal, readJournal } from "../../lib/progress/index.js";
import { processorMs } from "./clock.js";
import { longJournal } from "./longJournal.js";

/** Parses each line and keeps nothing. */
function parseEach(text: string): void {
  for (let from = 0; from < text.length; ) {
    const end = text.indexOf("\n", from);
    JSON.parse(text.slice(from, end));
    from = end + 1;
  }
}

console.log("| events | MB | JSON.parse, s | fold | foldJournal (its own parse included) |\n|---|---|---|---|---|");
for (const count of [10_000, 100_000, 1_000_000]) {
  const text = longJournal(count);
  const options = { runs: 3, warm: 1 };
  const parse = processorMs(() => parseEach(text), options);
  const { events } = readJournal(text);
  const replay = processorMs(() => void fold(events), options);
  const whole = processorMs(() => void foldJournal(text), options);
  const cells = [
    count,
    (text.length / 1e6).toFixed(0),
    (parse / 1000).toFixed(2),
    `${(replay / parse).toFixed(2)} x`,
    `${(whole / parse).toFixed(2)} x`,
  ];
  console.log(`| ${cells.join(" | ")} |`);
}
