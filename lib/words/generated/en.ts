// Generated from lib/words/catalogues by `npm run words`; change the catalogue instead.

import type { CatalogueOf, Topic } from "../catalogueOf.js";
import type { Form } from "./en-language.js";
import { messages as browser } from "./en-browser.js";
import { messages as caution } from "./en-caution.js";
import { messages as chart } from "./en-chart.js";
import { messages as cliProblem } from "./en-cli-problem.js";
import { messages as cli } from "./en-cli.js";
import { messages as compiledProblem } from "./en-compiled-problem.js";
import { messages as curriculumProblem } from "./en-curriculum-problem.js";
import { messages as drillProblem } from "./en-drill-problem.js";
import { messages as editionProblem } from "./en-edition-problem.js";
import { messages as formatsProblem } from "./en-formats-problem.js";
import { messages as journalProblem } from "./en-journal-problem.js";
import { messages as keyProblem } from "./en-key-problem.js";
import { messages as listenProblem } from "./en-listen-problem.js";
import { messages as meterProblem } from "./en-meter-problem.js";
import { messages as nodeProblem } from "./en-node-problem.js";
import { messages as page } from "./en-page.js";
import { messages as patternProblem } from "./en-pattern-problem.js";
import { messages as pitchProblem } from "./en-pitch-problem.js";
import { messages as planProblem } from "./en-plan-problem.js";
import { messages as plan } from "./en-plan.js";
import { messages as practiceProblem } from "./en-practice-problem.js";
import { messages as progressProblem } from "./en-progress-problem.js";
import { messages as progress } from "./en-progress.js";
import { messages as recordProblem } from "./en-record-problem.js";
import { messages as recordingProblem } from "./en-recording-problem.js";
import { messages as renderProblem } from "./en-render-problem.js";
import { messages as report } from "./en-report.js";
import { messages as rungProblem } from "./en-rung-problem.js";
import { messages as schemaProblem } from "./en-schema-problem.js";
import { messages as serverProblem } from "./en-server-problem.js";
import { messages as server } from "./en-server.js";
import { messages as settingProblem } from "./en-setting-problem.js";
import { messages as setting } from "./en-setting.js";
import { messages as sheetProblem } from "./en-sheet-problem.js";
import { messages as sheet } from "./en-sheet.js";
import { messages as soundProblem } from "./en-sound-problem.js";
import { messages as sound } from "./en-sound.js";
import { messages as storeProblem } from "./en-store-problem.js";
import { messages as take } from "./en-take.js";
import { messages as timeProblem } from "./en-time-problem.js";
import { messages as wordsProblem } from "./en-words-problem.js";

export { language } from "./en-language.js";

export const messages: CatalogueOf<Topic, Form> = { ...browser, ...caution, ...chart, ...cliProblem, ...cli, ...compiledProblem, ...curriculumProblem, ...drillProblem, ...editionProblem, ...formatsProblem, ...journalProblem, ...keyProblem, ...listenProblem, ...meterProblem, ...nodeProblem, ...page, ...patternProblem, ...pitchProblem, ...planProblem, ...plan, ...practiceProblem, ...progressProblem, ...progress, ...recordProblem, ...recordingProblem, ...renderProblem, ...report, ...rungProblem, ...schemaProblem, ...serverProblem, ...server, ...settingProblem, ...setting, ...sheetProblem, ...sheet, ...soundProblem, ...sound, ...storeProblem, ...take, ...timeProblem, ...wordsProblem };
