import type { SoundClock } from "../clock/model.js";
import { say } from "../say.js";
import { telling } from "../telling.js";
import type { Input, InputNote, InputState, TapOptions } from "./model.js";

/** Keys by which people leave a page or a take. */
const NO_TAPS: readonly string[] = ["Escape", "Tab"];

/**
 * Takes taps on keys, with a finger, a mouse or a pen, as notes. The time of a tap is that of its event, whenever the page gets to it: which second of
 * the context was heard then.
 *
 * @example
 * const taps = listenToTaps(player.clock);
 * taps.onNote(({ at }) => console.log(at));
 */
export function listenToTaps(clock: SoundClock, { target, except = NO_TAPS }: TapOptions = {}): Input {
  const notes = telling<InputNote>();
  const states = telling<InputState>();
  const device = say("browser.device.taps").says;
  let state: InputState = { state: "listening", device };
  const touched = target ?? document;
  const tapped = (event: Event): void => notes.tell({ at: clock.heardAt(event.timeStamp) });
  const pointed = (event: Event): void => {
    if ((event as PointerEvent).button === 0) tapped(event);
  };
  const pressed = (event: Event): void => {
    const { key, repeat, ctrlKey, altKey, metaKey } = event as KeyboardEvent;
    if (!repeat && !ctrlKey && !altKey && !metaKey && !except.includes(key)) tapped(event);
  };
  touched.addEventListener("pointerdown", pointed);
  document.addEventListener("keydown", pressed);
  return {
    kind: "taps",
    get state() {
      return state;
    },
    device,
    onNote: notes.on,
    onState: states.on,
    onDamage: () => () => undefined,
    close: () => {
      touched.removeEventListener("pointerdown", pointed);
      document.removeEventListener("keydown", pressed);
      state = { state: "closed" };
      states.tell(state);
    },
  };
}
