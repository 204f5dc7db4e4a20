// Generated from lib/words/catalogues by `npm run words`; change the catalogue instead.

import type { CatalogueOf, Topic } from "../catalogueOf.js";
import type { Form } from "./en-language.js";
import { messages as browser } from "./en-browser.js";
import { messages as caution } from "./en-caution.js";
import { messages as chart } from "./en-chart.js";
import { messages as page } from "./en-page.js";
import { messages as plan } from "./en-plan.js";
import { messages as progress } from "./en-progress.js";
import { messages as sheet } from "./en-sheet.js";
import { messages as take } from "./en-take.js";

export { language } from "./en-language.js";

export const messages: CatalogueOf<Topic, Form> = { ...browser, ...caution, ...chart, ...page, ...plan, ...progress, ...sheet, ...take };
