import type { Page, PlayedTake } from "../page.js";
import { thePlayer } from "../playing/hands.js";
import { loadScores } from "../playing/loadScores.js";
import { h } from "../view/element.js";

/** The take's own sound against the band, until the view is left; nothing where there is no sound. */
export function ownSound(page: Page, { sound, score }: PlayedTake): { element: HTMLElement | false; close(): void } {
  if (sound === undefined) return { element: false, close: () => undefined };
  const { words } = page;
  let source: AudioBufferSourceNode | undefined;
  const close = (): void => {
    if (source === undefined) return;
    source.stop();
    source = undefined;
    void thePlayer().then((player) => player.stop());
  };
  const hear = async (): Promise<void> => {
    close();
    const player = await thePlayer();
    const { context } = player;
    if (!(await loadScores(page, player, [score])).ok) return;
    const buffer = context.createBuffer(1, sound.samples.length, sound.rate);
    buffer.copyToChannel(Float32Array.from(sound.samples), 0);
    const playing = await player.play();
    if (!playing.ok) return;
    const started = playing.value;
    source = new AudioBufferSourceNode(context, { buffer });
    source.connect(context.destination);
    const offset = sound.barOne + started.from;
    if (offset >= 0) source.start(started.at, offset);
    else source.start(started.at - offset);
  };
  const element = h(
    "div",
    {},
    h(
      "div",
      { class: "presses" },
      h("button", { type: "button", click: () => void hear() }, words.say("page.hear-take")),
      h("button", { type: "button", click: close }, words.say("page.stop")),
    ),
    h("p", { class: "small" }, words.say("page.sound-until-left")),
  );
  return { element, close };
}
