// The worker that hears takes: listening and judging take longer than a page may stand still.
import type { Following } from "../../take/index.js";
import type { Asked } from "./hearInWorker.js";
import { type Hearing, type HearingTerms, hearHere } from "./hearing.js";

let hearing: Hearing | undefined;
const post = (message: unknown): void => (globalThis as unknown as Worker).postMessage(message);

globalThis.onmessage = ({ data }: MessageEvent<Asked>): void => {
  if (data.kind === "begin")
    hearing = hearHere(data.terms as HearingTerms, (following: Following) => post({ following }));
  else if (data.kind === "block") hearing?.push(data);
  else if (data.kind === "note") hearing?.note(data.note);
  else if (data.kind === "now") hearing?.now(data.at);
  else
    hearing?.finish(data.advice).then(
      (heard) => post({ heard }),
      (error) => post({ failed: String(error) }),
    );
};
post({ ready: true });
