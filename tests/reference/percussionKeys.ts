/**
 * Keys of percussion by the names used here: General MIDI level 1 percussion key map (MMA0007/RP003), as listed by the documentation of
 * the Rust crate midi-msg.
 */
export const PERCUSSION_KEYS: readonly (readonly [voice: string, key: number])[] = [
  ["low kick", 35],
  ["kick", 36],
  ["side stick", 37],
  ["snare", 38],
  ["clap", 39],
  ["high snare", 40],
  ["closed hat", 42],
  ["pedal hat", 44],
  ["open hat", 46],
  ["crash", 49],
  ["ride", 51],
  ["ride bell", 53],
  ["tambourine", 54],
  ["cowbell", 56],
  ["claves", 75],
  ["high wood block", 76],
  ["low wood block", 77],
  ["muted triangle", 80],
  ["open triangle", 81],
];
