/**
 * Whole, half, quarter, eighth, 16th and 32nd note. German, Spanish, French and Italian: the table "Duration names notes and rests" of the LilyPond Music
 * Glossary (lilypond/lilypond, Documentation/en/music-glossary.tely), which names as its sources Leuchtmann, Polyglottes Wörterbuch der musikalischen
 * Terminologie (1980), and the Harvard dictionaries; plurals and the short forms "Viertel", "Achtel" are common practice. Portuguese (of Brazil) and
 * Japanese: common practice, no source.
 */
export const NOTE_VALUES: Readonly<Record<string, readonly string[]>> = {
  de: ["Ganze", "Halbe", "Viertel", "Achtel", "Sechzehntel", "Zweiunddreißigstel"],
  es: ["redonda", "blanca", "negra", "corchea", "semicorchea", "fusa"],
  fr: ["ronde", "blanche", "noire", "croche", "doubles croche", "triples croche"],
  it: ["semibreve", "minim", "semiminim", "crome", "semicrome", "biscrome"],
  ja: ["全音符", "2分音符", "4分音符", "8分音符", "16分音符", "32分音符"],
  pt: ["semibreve", "mínima", "semínima", "colcheia", "semicolcheia", "fusa"],
};

/** Terms of the trade that the words must use: bar, beat, count-in, phrase, silence. Common practice, no source. */
export const TERMS: Readonly<Record<string, readonly string[]>> = {
  de: ["takt", "schlag", "einzähler", "phrase", "stille", "die eins", "geschleppt", "geeilt", "tonart"],
  es: ["compás", "pulso", "cuenta previa", "frase", "silencio", "primer tiempo", "tonalidad"],
  fr: ["mesure", "temps", "décompte", "phrase", "silence", "premier temps", "pressé", "traîné", "tonalité"],
  it: ["battuta", "movimento", "conteggio", "frase", "silenzio", "battere", "tonalità"],
  ja: ["小節", "拍", "カウント", "フレーズ", "無音", "1拍目", "走りました", "もたりました", "調"],
  pt: ["compasso", "batida", "contagem", "frase", "silêncio", "primeiro tempo", "andamento", "tonalidade"],
};

/** Units, standards and keys of a keyboard: the same in every language. */
export const SIGNS: readonly string[] = ["MIDI", "Esc", "ms", "min", "Hz", "A Hz", "MB"];

/** Texts that are the same as in English because the language has the same word: of the same origin ("silence"), or taken over by musicians ("swing"). */
export const LOANS: Readonly<Record<string, readonly string[]>> = {
  de: ["Take", "Takes", "Drift", "Problem", "in", "Swing", "Journal", "Link", "Jan", "Feb", "Apr", "Aug", "Nov"],
  es: ["tempo", "riff", "swing", "arr", "Swing"],
  fr: [
    "microphone",
    "instrument",
    "journal",
    "note",
    "notes",
    "phrase",
    "phrases",
    "Pages",
    "Microphone",
    "Minutes",
    "Version",
    "Silence",
    "minute",
    "minutes",
    "silence",
    "Silences",
    "silences",
    "Classes",
    "Journal",
    "tempo",
    "riff",
    "swing",
    "arr",
    "Swing",
  ],
  it: ["Take", "take", "mix", "tempo", "riff", "swing", "arr", "Swing", "band", "in", "take mix", "file", "note"],
  ja: [],
  pt: ["Take", "Takes", "take", "takes", "riff", "swing", "arr", "Swing"],
};
