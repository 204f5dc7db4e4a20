/** Most bytes of a JSON body that is no take: our choice, names and reasons. */
export const SMALL_BODY = 20_000;

/** Most bytes of a take as JSON or MIDI, and of events in one request: our choice; 200,000 onsets with pitches are 10 MB. */
export const TAKE_BODY = 12_000_000;

/** Most bytes of a recording: our choice, eight minutes of 16-bit stereo WAV at 48 kHz, or an hour of FLAC or MP3. */
export const SOUND_BODY = 100_000_000;

/** Most entries of a list in one answer, and how many when nothing is said: our choices. */
export const MOST_LISTED = 1000;
export const LISTED = 100;
