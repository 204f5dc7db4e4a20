import { describe, expect, test } from "vitest";
import { INSTRUMENTS, unknownInstrument } from "../../lib/pattern/index.js";
import { midiNumber } from "../../lib/pattern/pitch.js";

describe("a name that no instrument has", () => {
  test.each([
    ["trumpett", "write trumpet"],
    ["alto saxofone", "write alto saxophone"],
    ["tenorsaxophone", "write tenor saxophone"],
    ["alto sax", "write alto saxophone"],
    ["bass guitar", "write electric bass"],
    ["french horn", "write horn"],
    ["sax", "write soprano saxophone, alto saxophone, tenor saxophone or baritone saxophone"],
  ])("%s: %s", (name, remedy) => {
    expect(unknownInstrument(name, {}).remedy).toBe(remedy);
  });

  test.each([
    "Eb clarinet",
    "E flat clarinet",
    "alto clarinet",
    "bass saxophone",
    "sopranino saxophone",
    "alto flute",
    "alto horn",
    "tenor horn",

    "piccolo trumpet",
  ])("%s is never answered with an instrument of another transposition or family", (name) => {
    expect(unknownInstrument(name, {}).remedy).toBe("describe it under instruments");
  });
});

test("an electric bass plays to its twentieth fret: the G string and a minor thirteenth, sounding Eb4 (common practice, no source)", () => {
  const { highest, transposition } = INSTRUMENTS["electric bass"]!;
  expect(midiNumber(highest!) + transposition.chromatic).toBe(43 + 20);
});
