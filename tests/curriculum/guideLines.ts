/** What can stand in a line, for the page that a teacher prints; each is read by a test, which finds the notes that are named here. */
export interface Written {
  readonly written: string;
  readonly is: string;
  /** A whole line of two bars of 4/4 in which it stands. */
  readonly line: string;
  /** The notes of that line: where each begins, in quarters from bar 1, and what it is. */
  readonly notes: string;
}

export const NOTE_LINE: readonly Written[] = [
  {
    written: "1/4 D4 F4",
    is: "Two quarter notes. A length holds until the next length.",
    line: "1/4 D4 F4 G4 A4 | 1/2 D4 F4",
    notes: "0 D4, 1 F4, 2 G4, 3 A4, 4 D4, 6 F4",
  },
  {
    written: "1/1 1/2 1/4 1/8 1/16",
    is: "Whole, half, quarter, eighth, sixteenth note.",
    line: "1/1 D4 | 1/2 D4 1/4 F4 1/8 G4 1/16 A4 B4",
    notes: "0 D4, 4 D4, 6 F4, 7 G4, 7.5 A4, 7.75 B4",
  },
  {
    written: "3/8 3/4 1/4+1/16",
    is: "A dotted quarter, a dotted half, two lengths joined.",
    line: "3/8 D4 1/8 F4 1/2 G4 | 3/4 A4 1/8+1/16 D4 1/16 F4",
    notes: "0 D4, 1.5 F4, 2 G4, 4 A4, 7 D4, 7.75 F4",
  },
  {
    written: "C4 F#4 Bb3",
    is: "Pitches as they sound. C4 is middle C.",
    line: "1/2 C4 F#4 | 1/1 Bb3",
    notes: "0 C4, 2 F#4, 4 Bb3",
  },
  {
    written: "- or rest",
    is: "Silence of the length in force. Alone in a bar: the whole bar.",
    line: "1/4 D4 - F4 - | rest",
    notes: "0 D4, 2 F4",
  },
  {
    written: "tie",
    is: "The note sounds on for that length, over a bar line too.",
    line: "1/2 D4 F4 | 1/4 tie G4 1/2 A4",
    notes: "0 D4, 2 F4, 5 G4, 6 A4",
  },
  {
    written: "D4! D4. (D4)",
    is: "An accent, a short note, a ghost note.",
    line: "1/4 D4! F4. (G4) A4 | 1/1 D4",
    notes: "0 D4, 1 F4, 2 G4, 3 A4, 4 D4",
  },
  {
    written: "D4_",
    is: "Held for all of its length (tenuto).",
    line: "1/4 D4_ F4 G4_ A4 | 1/1 D4",
    notes: "0 D4, 1 F4, 2 G4, 3 A4, 4 D4",
  },
  {
    written: "D4~ F4~ G4",
    is: "Slurred, each to the next note, over a bar line too. Each is a note to be timed like any other.",
    line: "1/4 D4~ F4~ G4 A4~ | 1/1 D4",
    notes: "0 D4, 1 F4, 2 G4, 3 A4, 4 D4",
  },
  {
    written: "D4-scoop D4-fall",
    is: "Slides up into its pitch; falls off it.",
    line: "1/2 D4-scoop F4-fall | 1/1 G4",
    notes: "0 D4, 2 F4, 4 G4",
  },
  {
    written: "pp p mp mf f ff",
    is: "Loudness from here on.",
    line: "p 1/2 D4 F4 | f G4 A4",
    notes: "0 D4, 2 F4, 4 G4, 6 A4",
  },
  {
    written: "C4+Eb4",
    is: "Two notes together.",
    line: "1/2 C4+Eb4 D4 | 1/1 C4",
    notes: "0 C4, 0 Eb4, 2 D4, 4 C4",
  },
  {
    written: "3 in 2 [1/8 D4 E4 F4]",
    is: "Three eighths in the time of two: a triplet. The line needs quotes inside braces.",
    line: "1/4 D4 3 in 2 [1/8 D4 E4 F4] 1/2 G4 | 1/1 A4",
    notes: "0 D4, 1 D4, 1.333 E4, 1.667 F4, 2 G4, 4 A4",
  },
  {
    written: "|",
    is: "A bar line. Each bar is counted, and a wrong one is named.",
    line: "1/1 D4 | F4",
    notes: "0 D4, 4 F4",
  },
  {
    written: "same",
    is: "The bar before, once more.",
    line: "1/2 D4 F4 | same",
    notes: "0 D4, 2 F4, 4 D4, 6 F4",
  },
  {
    written: "...",
    is: "At the end: the bars so far, repeated to the end of the pattern.",
    line: "1/4 D4 F4 1/2 G4 | ...",
    notes: "0 D4, 1 F4, 2 G4, 4 D4, 5 F4, 6 G4",
  },
];

export const DRUM_LINE: readonly Written[] = [
  {
    written: "x",
    is: "A stroke. Each character is one place of the bar.",
    line: "x-x-x-x- | x---x---",
    notes: "0 hat, 1 hat, 2 hat, 3 hat, 4 hat, 6 hat",
  },
  { written: "X", is: "An accent.", line: "X--- | xXx-", notes: "0 hat, 4 hat, 5 hat, 6 hat" },
  { written: "g", is: "A ghost stroke, hardly heard.", line: "xg-- | x---", notes: "0 hat, 1 hat, 4 hat" },
  { written: "-", is: "Nothing.", line: "---- | x---", notes: "4 hat" },
  {
    written: "xxxx x-xxx---",
    is: "Four characters are the quarters of a bar of 4/4, eight its eighths, sixteen its sixteenths. Bars may differ.",
    line: "xxxx | x-xxx---",
    notes: "0 hat, 1 hat, 2 hat, 3 hat, 4 hat, 5 hat, 5.5 hat, 6 hat",
  },
  {
    written: "| same ...",
    is: "As in a line of notes.",
    line: "x--- | same",
    notes: "0 hat, 4 hat",
  },
];

/** What YAML would swallow: a line of a course as people write it, and as it is to be written. */
export interface Swallowed {
  readonly wrong: string;
  /** What YAML makes of it, or what is wrong. */
  readonly why: string;
  readonly right: string;
  /** The code of the problem that the wrong line raises. */
  readonly code: string;
}

export const SWALLOWED: readonly Swallowed[] = [
  {
    wrong: "notes: - D4 | ...",
    why: "A dash and a blank begin a list.",
    right: 'notes: "1/2 - D4 | ..."',
    code: "LINE_NEEDS_QUOTES",
  },
  {
    wrong: "notes: | 1/1 D4 | ...",
    why: "A bar line at the beginning starts a text of several lines. A line of notes never begins with one.",
    right: "notes: 1/1 D4 | ...",
    code: "LINE_NEEDS_QUOTES",
  },
  {
    wrong: "title: Take #2",
    why: "A number sign after a blank begins a comment, and the rest is gone.",
    right: 'title: "Take #2"',
    code: "LINE_NEEDS_QUOTES",
  },
  {
    wrong: "title: Quay: first term",
    why: "A colon and a blank end a key.",
    right: 'title: "Quay: first term"',
    code: "LINE_NEEDS_QUOTES",
  },
  {
    wrong: "lead: { notes: 3 in 2 [1/4 D4 E4 F4] 1/2 D4 | ... }",
    why: "Between braces a bracket begins a list.",
    right: 'lead: { notes: "3 in 2 [1/4 D4 E4 F4] 1/2 D4 | ..." }',
    code: "LINE_NEEDS_QUOTES",
  },
  {
    wrong: "title: 1984",
    why: "Digits alone are a number, not text.",
    right: 'title: "1984"',
    code: "WRONG_TYPE",
  },
  {
    wrong: "edition: 1.0",
    why: "One point makes a number. An edition has three numbers.",
    right: "edition: 1.0.0",
    code: "WRONG_TYPE",
  },
  {
    wrong: "tempo: 1:30",
    why: "A time is no tempo. Some old programs read it as the number 90; here it is text.",
    right: "tempo: 90",
    code: "WRONG_TYPE",
  },
  {
    wrong: "mixes: { play: { lead: Off } }",
    why: "The words are `plays`, `drops` and `off`, in small letters. Some old programs read `off`, `no` and `yes` as true or false; here they are words.",
    right: "mixes: { play: { lead: off } }",
    code: "NOT_ONE_OF",
  },
  {
    wrong: "tolerance: { drift: 8, landing: 120 ms }",
    why: "A limit has a unit.",
    right: "tolerance: { drift: 8 %, landing: 120 ms }",
    code: "WRONG_TYPE",
  },
  {
    wrong: "tolerance: { drift: 8 %, landing:120 ms }",
    why: "A key ends with a colon and a blank.",
    right: "tolerance: { drift: 8 %, landing: 120 ms }",
    code: "UNKNOWN_KEY",
  },
  {
    wrong: "\tstudent: lead",
    why: "A tab. Lines are moved in with blanks, the same number for keys that belong together.",
    right: "student: lead",
    code: "YAML_SYNTAX",
  },
];
