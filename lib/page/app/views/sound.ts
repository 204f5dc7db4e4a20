import type { Result } from "../../../base/index.js";
import {
  type Input,
  type LatencyProgress,
  type Microphone,
  measureLoop,
  measureTapping,
} from "../../../browser/index.js";
import type { Latency } from "../../../listen/index.js";
import type { Page, ShowView } from "../page.js";
import { measuredDevices, openInput, thePlayer } from "../playing/hands.js";
import type { Student } from "../state/students.js";
import { cautions } from "../view/cautions.js";
import { fill, h } from "../view/element.js";
import { problemList } from "../view/problems.js";

/** How late this device plays and hears, measured once by clicks. */
export const showSound: ShowView = async (page) => {
  const { words } = page;
  const student = page.student!;
  const title = words.say("page.sound");
  const answer = h("div", { role: "status" }, measuredList(page, student));
  const pad = h(
    "button",
    { type: "button", class: "pad", hidden: student.input !== "taps" },
    words.say("page.tap-here"),
  );
  let stopping = new AbortController();
  const measure = async (): Promise<void> => {
    stopping.abort();
    stopping = new AbortController();
    pad.focus();
    const { signal } = stopping;
    const show = ({ delays, of }: LatencyProgress): void =>
      fill(answer, h("p", {}, words.say("page.measuring", { heard: delays.length, of })));
    const measured = await measureInput(student, pad, { signal, onProgress: show });
    if (signal.aborted) return;
    fill(answer, measured.ok ? [] : problemList(measured.problems, words), measuredList(page, student));
  };
  const body = [
    h("div", { class: "head" }, h("h1", {}, title), h("p", { class: "lead" }, words.say("page.sound-lead"))),
    cautions(words),
    h("p", {}, words.say("page.sound-by-loop", { input: student.input })),
    h(
      "div",
      { class: "presses" },
      h(
        "button",
        { type: "button", class: "go", id: "measure", click: () => void measure() },
        words.say("page.measure"),
      ),
      h("button", { type: "button", click: () => stopping.abort() }, words.say("page.stop")),
    ),
    pad,
    answer,
  ];
  return { title, body, leave: () => stopping.abort() };
};

/** Measures the student's input, and keeps what was found for its device. */
async function measureInput(
  student: Student,
  pad: HTMLElement,
  options: { readonly signal: AbortSignal; readonly onProgress: (progress: LatencyProgress) => void },
): Promise<Result<Latency>> {
  const player = await thePlayer();
  const opened = await openInput(student.input, player, pad);
  if (!opened.ok) return opened;
  const input = opened.value;
  try {
    const measured = isMicrophone(input)
      ? await measureLoop(player, input, options)
      : await measureTapping(player, input, options);
    if (measured.ok) {
      const { kind, device } = input;
      measuredDevices().keep({ ...measured.value, kind, device, measured: new Date().toISOString() });
    }
    return measured;
  } finally {
    input.close();
  }
}

function isMicrophone(input: Input | Microphone): input is Microphone {
  return input.kind === "microphone";
}

/** What was measured of this kind of input before. */
function measuredList({ words }: Page, { input }: Student): Node[] {
  const known = measuredDevices().all.filter(({ kind }) => kind === input);
  if (known.length === 0) return [h("p", { class: "small" }, words.say("page.not-measured"))];
  return known.map(({ device, latencyMs, latencyStandardErrorMs }) =>
    h(
      "p",
      {},
      words.say("page.measured", {
        device,
        ms: Math.round(latencyMs),
        error: Math.max(1, Math.round(latencyStandardErrorMs)),
      }),
    ),
  );
}
