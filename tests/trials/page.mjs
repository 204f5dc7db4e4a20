/** A page to practise on, as somebody would write it from the docs of the doors alone: taps of a pointer or the space bar become takes. */
import { openCourse, settingsText } from "leeway";
import { enrol, openStudent, scoreFor, submit } from "leeway/practice";
import { isStoreProblem } from "leeway/store";

/** Shows a student's practice in an element with a pad, a button and an output. `text` is a compiled course, `store` keeps the journal. */
export async function practise(element, { text, store, student }) {
  const course = required(openCourse(text));
  const [pad, button, output] = ["[data-pad]", "button", "output"].map((each) => element.querySelector(each));
  const now = () => new Date().toISOString();
  required(await again(() => enrol(store, student, { course, at: now() })));
  let take;

  async function begin({ timeStamp }) {
    const [next] = required(await again(() => openStudent(store, student, { course }))).open;
    if (next === undefined) return say("all drills are complete");
    const rung = settingsText(next.rung.settings);
    const { countIn } = scoreFor(course, next.rung);
    take = { id: crypto.randomUUID(), drill: next.drill.name, rung, zero: "bar-1", onsets: [] };
    take.bar1 = timeStamp + 1000 * countIn;
    say(`play ${take.drill} at ${rung}; bar 1 is in ${countIn} seconds`);
  }

  function tap({ timeStamp }) {
    // Timestamps of events are milliseconds, onsets are seconds.
    if (take !== undefined) take.onsets.push((timeStamp - take.bar1) / 1000);
  }

  // Whoever presses twice sends the same take twice, which counts once.
  async function end() {
    const { bar1, ...played } = take;
    const { finding, decision } = required(await again(() => submit(store, student, played, { course, at: now() })));
    if (take?.id === played.id) take = undefined;
    say(`${finding.sentence} ${decision.what}`);
  }

  function say(words) {
    output.value = words;
    element.dispatchEvent(new CustomEvent("said", { detail: words }));
  }

  const tell = (work) => (event) => work(event).catch((error) => say(error.message));
  button.addEventListener("click", (event) => tell(take === undefined ? begin : end)(event));
  pad.addEventListener("pointerdown", tap);
  pad.addEventListener("keydown", (event) => event.key === " " && !event.repeat && tap(event));
}

/** What a store that failed is asked for again: what it did all the same is known then. */
async function again(work, times = 3) {
  return work().catch((error) => {
    if (times > 1 && isStoreProblem(error)) return again(work, times - 1);
    throw error;
  });
}

function required(result) {
  if (!result.ok) throw new Error(result.problems.map(({ code, message }) => `${code}: ${message}`).join("\n"));
  return result.value;
}
