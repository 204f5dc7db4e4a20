// Generated from lib/words/catalogues by `npm run words`; change the catalogue instead.

import type { CatalogueOf, Topic } from "../catalogueOf.js";
import type { Form } from "./en-language.js";
import { messages as caution } from "./en-caution.js";
import { messages as chart } from "./en-chart.js";
import { messages as compiledProblem } from "./en-compiled-problem.js";
import { messages as curriculumProblem } from "./en-curriculum-problem.js";
import { messages as drillProblem } from "./en-drill-problem.js";
import { messages as editionProblem } from "./en-edition-problem.js";
import { messages as formatsProblem } from "./en-formats-problem.js";
import { messages as keyProblem } from "./en-key-problem.js";
import { messages as meterProblem } from "./en-meter-problem.js";
import { messages as patternProblem } from "./en-pattern-problem.js";
import { messages as pitchProblem } from "./en-pitch-problem.js";
import { messages as plan } from "./en-plan.js";
import { messages as progress } from "./en-progress.js";
import { messages as recordingProblem } from "./en-recording-problem.js";
import { messages as rungProblem } from "./en-rung-problem.js";
import { messages as schemaProblem } from "./en-schema-problem.js";
import { messages as settingProblem } from "./en-setting-problem.js";
import { messages as sheet } from "./en-sheet.js";
import { messages as take } from "./en-take.js";
import { messages as timeProblem } from "./en-time-problem.js";
import { messages as wordsProblem } from "./en-words-problem.js";

export { language } from "./en-language.js";

export const messages: CatalogueOf<Topic, Form> = { ...caution, ...chart, ...compiledProblem, ...curriculumProblem, ...drillProblem, ...editionProblem, ...formatsProblem, ...keyProblem, ...meterProblem, ...patternProblem, ...pitchProblem, ...plan, ...progress, ...recordingProblem, ...rungProblem, ...schemaProblem, ...settingProblem, ...sheet, ...take, ...timeProblem, ...wordsProblem };
