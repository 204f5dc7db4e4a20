/** Texts written to be hard to read, each by its name. They are made where they are used, so that none is kept. */

const HEAD = "curriculum: c\nedition: 1.0.0\ntitle: t\n";
const PATTERN = "{ meter: 4/4, bars: 1, parts: { kit: { voices: { hat: xxxx } }, lead: { notes: 1/4 D4 D4 D4 D4 } } }";
const LONG =
  "{ meter: 4/4, bars: 16, parts: { kit: { voices: { hat: xxxx%s } }, lead: { notes: 1/4 D4 D4 D4 D4%s } } }".replaceAll(
    "%s",
    " | same".repeat(15),
  );
const PATTERNS = `patterns:\n  p: ${PATTERN}\n  q: ${LONG}\n`;
const LONGEST = `  r: { meter: 8/64, bars: 128, parts: { kit: { voices: { hat: x${" | same".repeat(127)} } }, lead: { notes: "${"1/64 D4 ".repeat(8)}${"| same ".repeat(127)}" } } }\n`;
const DRILL = "{ pattern: p, student: lead, tempo: 90, tolerance: { steadiness: 40 ms } }";

const course = (drills: string, patterns = PATTERNS): string => `${HEAD}${patterns}drills:\n${drills}`;
const drill = (keys: string): string =>
  course(`  d: { pattern: p, student: lead, tolerance: { steadiness: 40 ms }, ${keys} }\n`);
const times = (count: number, line: (i: number) => string): string =>
  Array.from({ length: count }, (_, i) => line(i)).join("");
/** As much of something repeated as still fits into the limit of size. */
const filled = (piece: string, length = 262_000): string => piece.repeat(Math.floor(length / piece.length));
/** Nine levels of aliases, each nine times the one below. */
const bomb = (wrap: (inner: string) => string): string =>
  `a: &a ${wrap("x")}\n${times(8, (i) => `${"bcdefghi"[i]}: &${"bcdefghi"[i]} [${`*${"abcdefgh"[i]},`.repeat(9)}]\n`)}`;

/** Makes a text; the code is one of the problems it has to be answered with, "" when it may also be accepted. */
export const HOSTILE: Readonly<Record<string, { readonly code: string; readonly make: () => string }>> = {
  "10 MB of brackets": { code: "TEXT_TOO_LARGE", make: () => "[".repeat(10_000_000) },
  "10 MB of blanks": { code: "TEXT_TOO_LARGE", make: () => " ".repeat(10_000_000) },
  "10 MB in one line": { code: "TEXT_TOO_LARGE", make: () => `a: ${"x".repeat(10_000_000)}` },
  "brackets within the size": { code: "NESTED_TOO_DEEPLY", make: () => filled("[") },
  "braces within the size": { code: "NESTED_TOO_DEEPLY", make: () => filled("{a: ") },
  "brackets that close": { code: "NESTED_TOO_DEEPLY", make: () => `${"[".repeat(5000)}${"]".repeat(5000)}` },
  "dashes in a row": { code: "NESTED_TOO_DEEPLY", make: () => "- ".repeat(29_000) },
  "question marks in a row": { code: "NESTED_TOO_DEEPLY", make: () => "? ".repeat(29_000) },
  "colons in a row": { code: "NESTED_TOO_DEEPLY", make: () => ": ".repeat(29_000) },
  "keys in a row": { code: "NESTED_TOO_DEEPLY", make: () => "a: ".repeat(14_000) },
  "steps of indentation": { code: "NESTED_TOO_DEEPLY", make: () => times(700, (i) => `${" ".repeat(i)}a:\n`) },
  "steps of dashes": { code: "NESTED_TOO_DEEPLY", make: () => times(700, (i) => `${" ".repeat(i)}-\n`) },
  "nested 33 levels": { code: "NESTED_TOO_DEEPLY", make: () => `a: ${"[".repeat(33)}${"]".repeat(33)}` },
  "too many tokens": { code: "TOO_MANY_TOKENS", make: () => filled("a:\n") },
  "line ends": { code: "TOO_MANY_TOKENS", make: () => filled("\n") },
  "closing brackets": { code: "YAML_SYNTAX", make: () => "]".repeat(59_000) },
  "quotes in a row": { code: "YAML_SYNTAX", make: () => '"'.repeat(29_000) },
  "anchors in a row": { code: "YAML_SYNTAX", make: () => "&a ".repeat(19_000) },
  "tags in a row": { code: "YAML_SYNTAX", make: () => "!a ".repeat(19_000) },
  directives: { code: "EMPTY_FILE", make: () => "%YAML 3.7\n".repeat(11_000) },
  "wrong escapes": { code: "YAML_SYNTAX", make: () => `a: "${filled("\\q")}"` },
  documents: { code: "SEVERAL_DOCUMENTS", make: () => "---\na\n".repeat(9_000) },
  "a tag that runs code elsewhere": { code: "TAG_NOT_ALLOWED", make: () => "a: !!js/function 'function () {}'\n" },
  "bytes in base 64": { code: "TAG_NOT_ALLOWED", make: () => `a: !!binary ${filled("QUFB")}\n` },
  "the alias bomb": { code: "ALIASES_TOO_LARGE", make: () => bomb((inner) => `[${`${inner},`.repeat(9)}]`) },
  "the alias bomb of texts": { code: "ALIASES_TOO_LARGE", make: () => bomb(() => `"${"x".repeat(1000)}"`) },
  "a long list, many times": {
    code: "ALIASES_TOO_LARGE",
    make: () => `a: &a [${"1,".repeat(9000)}]\n${times(4000, (i) => `b${i}: *a\n`)}`,
  },
  "an alias of itself": { code: "ALIAS_OF_ITSELF", make: () => "a: &a [*a]\n" },
  "an alias of itself, deep inside": { code: "ALIAS_OF_ITSELF", make: () => "a: &a { b: [c, { d: *a }] }\n" },
  "aliases of each other": { code: "ALIAS_OF_ITSELF", make: () => "a: &a [&b [*a, *b]]\n" },
  "the same key": { code: "DUPLICATE_KEY", make: () => "a:\n".repeat(14_000) },
  "unknown keys": { code: "UNKNOWN_KEY", make: () => times(14_000, (i) => `${i.toString(36)}:\n`) },
  "unknown keys with long names": {
    code: "UNKNOWN_KEY",
    make: () => times(250, (i) => `k${i}${"x".repeat(1000)}: 1\n`),
  },
  prototypes: {
    code: "UNKNOWN_KEY",
    make: () =>
      course(
        `  __proto__: { polluted: 1 }\n  d: { __proto__: { polluted: 1 }, constructor: { prototype: { polluted: 1 } } }\n__proto__: { polluted: 1 }\n`,
      ),
  },
  "prototypes as names": {
    code: "PATTERN_UNKNOWN",
    make: () =>
      course(
        "  constructor: { pattern: toString, student: valueOf, tempo: 90, needs: [hasOwnProperty], tolerance: {} }\n",
      ),
  },
  "merge keys": { code: "UNKNOWN_KEY", make: () => `a: &a { x: 1 }\nb: { ${"<<: *a, ".repeat(5000)} }\n` },
  "no number": { code: "NUMBER_NOT_FINITE", make: () => drill("tempo: .nan") },
  "an infinite number": { code: "NUMBER_NOT_FINITE", make: () => drill("tempo: -.inf") },
  "1e400": { code: "NUMBER_NOT_FINITE", make: () => drill("tempo: 1e400") },
  digits: { code: "NUMBER_NOT_FINITE", make: () => drill(`tempo: ${"9".repeat(200_000)}`) },
  "2^53 bars": {
    code: "NUMBER_OUT_OF_RANGE",
    make: () =>
      course(
        `  d: ${DRILL}\n`,
        "patterns:\n  p: { meter: 4/4, bars: 9007199254740992, parts: { lead: { notes: 1/1 D4 } } }\n",
      ),
  },
  "10^9 phrases": { code: "NUMBER_OUT_OF_RANGE", make: () => drill("tempo: 90, phrases: 1000000000") },
  "a count-in of 10^9 bars": { code: "SPAN_TOO_LONG", make: () => drill("tempo: 90, count-in: 100000000 bars") },
  "a meter with a huge upper number": {
    code: "METER_UPPER_OUT_OF_RANGE",
    make: () =>
      course(
        `  d: ${DRILL}\n`,
        "patterns:\n  p: { meter: 999999999/4, bars: 128, parts: { lead: { notes: rest | same } } }\n",
      ),
  },
  "a ladder of 10^9 tempi": {
    code: "",
    make: () => drill("ladders: [{ tempo: { from: 1, to: 1000, by: 0.000001 } }]"),
  },
  "a ladder of 10^9 lengths": {
    code: "",
    make: () =>
      drill(
        "tempo: 90, dropout: { parts: [kit] }, ladders: [{ dropout: { from: 1/100000000 note, to: 1 bar, by: 1/100000000 note } }]",
      ),
  },
  "a ladder with the finest step": {
    code: "",
    make: () => drill("ladders: [{ tempo: { from: 1, to: 1000, by: 5e-324 } }]"),
  },
  "ladders of a thousand each": {
    code: "",
    make: () =>
      drill(
        `dropout: {}, ladders: [{ tempo: { from: 1, to: 1000, by: 1 } }, { dropout: [${times(1000, (i) => `${i + 1}/4096 bar,`)}] }, { open: [${times(1000, () => "[1],")}] }]`,
      ),
  },
  "a thousand keys for fifty players": {
    code: "",
    make: () =>
      drill(
        `tempo: 90, players: [${"trumpet,".repeat(50)}], ladders: [{ key: [${times(1000, (i) => `${"CDEFGAB"[i % 7]} ${["major", "minor", "dorian"][i % 3]},`)}] }]`,
      ),
  },
  "a bar too many, repeated": {
    code: "BAR_COUNT_DIFFERS",
    make: () =>
      course(
        `  d: ${DRILL}\n`,
        `patterns:\n  p: { meter: 4/4, bars: 1, parts: { lead: { notes: "1/1 D4 ${"| same ".repeat(6500)}" } } }\n`,
      ),
  },
  "bars full of the shortest notes": {
    code: "",
    make: () =>
      course(
        `  d: ${DRILL}\n`,
        `patterns:\n  p: { meter: 64/4, bars: 128, parts: {${times(5, (i) => `p${i}: { notes: "${"1/64 D4 ".repeat(1024)}${"| same ".repeat(127)}" },`)} lead: { notes: "${"1/64 D4 ".repeat(1024)}${"| same ".repeat(127)}" } } }\n`,
      ),
  },
  "a long line of wrong notes": {
    code: "",
    make: () =>
      course(
        `  d: ${DRILL}\n`,
        `patterns:\n  p: { meter: 4/4, bars: 128, parts: { lead: { notes: "${"1/3 H4 ".repeat(6500)}" } } }\n`,
      ),
  },
  "wrong notes, repeated by aliases": {
    code: "",
    make: () =>
      `x: &n { notes: "${"1/3 H4 ".repeat(2000)}" }\n${course(`  d: ${DRILL}\n`, `patterns:\n  p: { meter: 4/4, bars: 128, parts: {${times(35, (i) => `p${i}: *n,`)} lead: *n } }\n`)}`.replace(
        "x: &n",
        "instruments: &n",
      ),
  },
  "a grid of 20,000 characters in a bar": {
    code: "",
    make: () =>
      course(
        `  d: ${DRILL}\n`,
        `patterns:\n  p: { meter: 4/4, bars: 1, parts: { kit: { voices: { hat: ${"x".repeat(19_999)} } }, lead: { notes: 1/1 D4 } } }\n`,
      ),
  },
  "tuplets in a row": {
    code: "",
    make: () =>
      course(
        `  d: ${DRILL}\n`,
        `patterns:\n  p: { meter: 4/4, bars: 1, parts: { lead: { notes: "${"3 in 2 [ ".repeat(5000)}" } } }\n`,
      ),
  },
  "ties in a row": {
    code: "",
    make: () =>
      course(
        `  d: ${DRILL}\n`,
        `patterns:\n  p: { meter: 4/4, bars: 1, parts: { lead: { notes: "${"1/64 D4 tie ".repeat(3500)}" } } }\n`,
      ),
  },
  "chords in a row": {
    code: "",
    make: () =>
      course(
        `  d: ${DRILL}\n`,
        `patterns:\n  p: { meter: 4/4, bars: 128, chords: "${"C7 ".repeat(6000)}", parts: { lead: { notes: rest } } }\n`,
      ),
  },
  "a thousand drills": { code: "", make: () => course(times(1000, (i) => `  d${i}: ${DRILL}\n`)) },
  "a thousand drills with silences and ladders": {
    code: "",
    make: () =>
      course(
        times(
          400,
          (i) =>
            `  d${i}: { pattern: q, student: lead, phrases: 64, dropout: { at: random }, tolerance: { drift: 9 % }, ladders: [{ dropout: [1 beat, 2 beats, 3 beats] }, { tempo: [60, 90] }] }\n`,
        ),
      ),
  },
  "patterns full of notes": {
    code: "COURSE_TOO_LARGE",
    make: () =>
      course(
        `  d: ${DRILL}\n`,
        `${PATTERNS}${times(180, (i) => `  q${i}: { meter: 48/64, bars: 100, parts: { lead: { notes: "${"1/64 D4 ".repeat(48)}${"| same ".repeat(99)}" } } }\n`)}`,
      ),
  },
  "drills over a long pattern, silent at random": {
    code: "COURSE_TOO_LARGE",
    make: () =>
      course(
        times(
          300,
          (i) =>
            `  d${i}: { pattern: r, student: lead, phrases: 1, dropout: { at: random, parts: [kit] }, tolerance: { drift: 9 % }, ladders: [{ dropout: [1 beat, 2 beats, 3 beats] }, { tempo: [60, 90] }] }\n`,
        ),
        `${PATTERNS}${LONGEST}`,
      ),
  },
  "drills over a long pattern, open and silent everywhere": {
    code: "COURSE_TOO_LARGE",
    make: () =>
      course(
        times(
          100,
          (i) =>
            `  d${i}: { pattern: r, student: lead, phrases: 1, dropout: { at: [${times(128, (bar) => `${bar + 1},`)}], parts: [kit] }, tolerance: { drift: 9 % }, ladders: [{ dropout: [${times(7, (n) => `${n + 1} beats,`)}] }, { tempo: [60, 90] }, { open: [${times(8, (bar) => `[${bar + 1}],`)}] }] }\n`,
        ),
        `${PATTERNS}${LONGEST}`,
      ),
  },
  "drills over a long pattern, steady": {
    code: "",
    make: () =>
      course(
        times(
          400,
          (i) => `  d${i}: { pattern: r, student: lead, phrases: 1, tempo: 90, tolerance: { steadiness: 40 ms } }\n`,
        ),
        `${PATTERNS}${LONGEST}`,
      ),
  },
  "needs of everything": {
    code: "",
    make: () =>
      course(
        times(
          180,
          (i) =>
            `  d${i}: { pattern: p, student: lead, tempo: 90, tolerance: { steadiness: 40 ms }, needs: [${times(60, (j) => `d${(i + j + 1) % 120},`)}] }\n`,
        ),
      ),
  },
  "a path out of the folder": {
    code: "PATH_LEAVES_FOLDER",
    make: () =>
      course(
        `  d: ${DRILL}\n`,
        "patterns:\n  p: { meter: 4/4, bars: 1, parts: { lead: { file: ../../etc/passwd } } }\n",
      ),
  },
  "control characters": { code: "", make: () => filled("\u0000\u0001\u001b[2J") },
  "half characters": { code: "", make: () => `a: ${filled("\ud800")}` },
  "only a byte order mark": { code: "EMPTY_FILE", make: () => "\ufeff" },
  "old line ends": { code: "", make: () => filled("a: 1\r") },
};

/** So many entries, each in as many characters, that the text is almost as large as a course may be. */
const entries = (line: (i: number) => string, count = 9_000, length = 2_550_000): string =>
  times(count, (i) => `${line(i).padEnd(length / count - 1, " #")}\n`);
const ORDINARY = "pattern: p, student: lead, tempo: 90, tolerance: { steadiness: 40 ms }";

/** Texts with the outline of a large course, and something hostile in each entry. */
export const LARGE_HOSTILE: typeof HOSTILE = {
  "brackets in each drill": {
    code: "WRONG_TYPE",
    make: () => course(entries((i) => `  d${i}: ${"[".repeat(25)}${"]".repeat(25)}`)),
  },
  "more drills than are looked at": {
    code: "TEXT_TOO_LARGE",
    make: () => course(times(250_000, (i) => `  d${i}:\n`)),
  },
  "nothing but short words": {
    code: "TOO_MANY_TOKENS",
    make: () => course(entries(() => `  d: [ ${"a,".repeat(1_000)} ]`, 1_200)),
  },
  "one drill of many, too long": {
    code: "TEXT_TOO_LARGE",
    make: () => course(`  d: { ${ORDINARY} }\n  e: [ ${"a,".repeat(140_000)} ]\n`),
  },
  "all in braces": { code: "TEXT_TOO_LARGE", make: () => `{ drills: { ${"d: 1, ".repeat(100_000)} } }` },
  "errors in each drill": { code: "YAML_SYNTAX", make: () => course(entries((i) => `  d${i}: ""x""`)) },
  "the alias bomb, a drill a level": {
    code: "ALIASES_TOO_LARGE",
    make: () =>
      course(`  a: &a [x]\n${entries((i) => `  b${i}: &b${i} [${`*${i === 0 ? "a" : `b${i - 1}`},`.repeat(9)}]`)}`),
  },
  "a long list in each drill": {
    code: "ALIASES_TOO_LARGE",
    make: () => `x: &x [${"[],".repeat(3_000)}]\n${course(entries((i) => `  d${i}: { a: *x }`))}`,
  },
  "the same drill": { code: "DUPLICATE_KEY", make: () => course(entries(() => `  d: { ${ORDINARY} }`)) },
  "patterns that are not there": {
    code: "PATTERN_UNKNOWN",
    make: () =>
      course(
        entries((i) => `  d${i}: { ${ORDINARY.replace("p,", `qattern-${i},`)} }`, 4_500, 1_200_000),
        `patterns:\n  p: ${PATTERN}\n${entries((i) => `  pattern-${i}: ${PATTERN}`, 4_500, 1_200_000)}`,
      ),
  },
  "needs that are not there": {
    code: "DRILL_UNKNOWN",
    make: () => course(entries((i) => `  drill-${i}: { ${ORDINARY}, needs: [prill-${i}, trill-${i}] }`)),
  },
  "instruments that are not there": {
    code: "INSTRUMENT_UNKNOWN",
    make: () => course(entries((i) => `  d${i}: { ${ORDINARY}, players: [trumppet, saxx, klarinet ${i}] }`)),
  },
  "a circle of needs": {
    code: "NEEDS_ITSELF",
    make: () => course(entries((i) => `  d${i}: { ${ORDINARY}, needs: [d${(i + 1) % 9_000}, d${(i + 2) % 9_000}] }`)),
  },
};
