import type { Result } from "../../../base/index.js";
import { success } from "../../../base/index.js";
import {
  captureAddress,
  type Input,
  type LatencyBook,
  latencyBook,
  listenToTaps,
  type Microphone,
  openMicrophone,
  openMidiInput,
  openPlayer,
  type ScorePlayer,
} from "../../../browser/index.js";
import { isSingle } from "../state/files.js";
import type { Student } from "../state/students.js";

let player: ScorePlayer | undefined;

/** The one player of the page, made when something is to sound for the first time: browsers want a press of a button before that. */
export async function thePlayer(): Promise<ScorePlayer> {
  player ??= openPlayer();
  return player;
}

/** Opens the input that a student chose. Taps are taken on the pad, and from keys. */
export async function openInput(
  input: Student["input"],
  { clock, context }: ScorePlayer,
  pad: HTMLElement,
): Promise<Result<Input | Microphone>> {
  switch (input) {
    case "taps":
      return success(listenToTaps(clock, { target: pad }));
    case "midi":
      return openMidiInput(clock);
    case "microphone":
      return openMicrophone(context, { worklet: isSingle() ? captureAddress() : fileAddress("capture.js") });
  }
}

/** Where the worker is that listens. A page in one file has none, and listens by itself. */
export function hearingAddress(): string {
  return isSingle() ? "data:," : fileAddress("hearing.js");
}

function fileAddress(name: string): string {
  return new URL(name, document.baseURI).href;
}

/** What was measured of the devices of this browser. */
export function measuredDevices(): LatencyBook {
  return latencyBook(globalThis.localStorage);
}
