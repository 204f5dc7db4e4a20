/**
 * General MIDI level 1 program of each instrument, 1 to 128 as in the sound set; from memory. An instrument that the sound set lacks has the
 * program of its nearest relative (cornet: trumpet; euphonium: trombone; bass clarinet: clarinet).
 */
const PROGRAMS: ReadonlyMap<string, number> = new Map([
  ["piano", 1],
  ["keyboard", 1],
  ["vibraphone", 12],
  ["marimba", 13],
  ["organ", 17],
  ["accordion", 22],
  ["guitar", 25],
  ["double bass", 33],
  ["bass", 33],
  ["electric bass", 34],
  ["violin", 41],
  ["fiddle", 41],
  ["viola", 42],
  ["cello", 43],
  ["harp", 47],
  ["voice", 53],
  ["trumpet", 57],
  ["cornet", 57],
  ["flugelhorn", 57],
  ["trombone", 58],
  ["euphonium", 58],
  ["tuba", 59],
  ["horn", 61],
  ["soprano saxophone", 65],
  ["alto saxophone", 66],
  ["saxophone", 66],
  ["tenor saxophone", 67],
  ["baritone saxophone", 68],
  ["oboe", 69],
  ["english horn", 70],
  ["bassoon", 71],
  ["clarinet", 72],
  ["piccolo", 73],
  ["flute", 74],
  ["recorder", 75],
  ["whistle", 79],
]);
/** The program of an unknown instrument, a piano: our choice, because a piano sounds at every pitch. */
const NEUTRAL = 1;

/**
 * The General MIDI program (1 to 128) of a part, found by its instrument, else by its name. An instrument that a course defines is found by the
 * last words of its name ("quay horn" has the program of a horn). 1, a piano, when nothing is found.
 *
 * @example programOf({ name: "bass", instrument: "double bass" }) // 33
 */
export function programOf(part: { readonly name: string; readonly instrument?: string | undefined }): number {
  return byLastWords(part.instrument) ?? byLastWords(part.name) ?? NEUTRAL;
}

function byLastWords(name: string | undefined): number | undefined {
  const words = (name ?? "").toLowerCase().split(/[^\p{L}]+/u);
  for (let from = 0; from < words.length; from++) {
    const program = PROGRAMS.get(words.slice(from).join(" "));
    if (program !== undefined) return program;
  }
  return undefined;
}
