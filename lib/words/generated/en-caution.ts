// Generated from lib/words/catalogues by `npm run words`; change the catalogue instead.

import type { CatalogueOf } from "../catalogueOf.js";
import type { Form } from "./en-language.js";

export const messages: CatalogueOf<"caution", Form> = {
  "caution.clicks": () => `Before you play the clicks: turn the volume down and take headphones off your ears, then turn it up as far as needed.`,
  "caution.loudness": () => `Keep the playback no louder than you need beside your instrument, and protect your hearing.`,
  "caution.strain": () => `Rest between takes, and stop when anything hurts; pain or ringing ears that stay are for a doctor.`,
  "caution.rules": () => `What your school, your teacher and local rules say about loudness and breaks comes first.`,
};
