/** Semitones from what transposing instruments read to what sounds: music21 10.5.0, instrument.py, as read there. */
export const SEMITONES_SOUNDING: readonly (readonly [instrument: string, semitones: number])[] = [
  ["clarinet", -2],
  ["soprano saxophone", -2],
  ["trumpet", -2],
  ["bass clarinet", -14],
  ["tenor saxophone", -14],
  ["alto saxophone", -9],
  ["baritone saxophone", -21],
  ["horn", -7],
  ["english horn", -7],
  ["piccolo", 12],
  ["double bass", -12],
];
