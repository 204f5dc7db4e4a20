import { parentPort, workerData } from "node:worker_threads";
import { type HearingTask, hearSound } from "./hearSound.js";

// What a thread does: hears one recording, and ends. Nothing of it is there for the next.
const result = await hearSound(workerData as HearingTask);
parentPort!.postMessage(result);
