import { pageExamples } from "./pageExamples.js";

pageExamples("lib/practice/README.md");
pageExamples("lib/plan/README.md");
pageExamples("lib/report/README.md");
pageExamples("lib/records/README.md");
pageExamples("lib/listen/README.md");
pageExamples("lib/render/README.md");
pageExamples("lib/formats/README.md");
pageExamples("lib/schema/README.md");
pageExamples("lib/words/README.md");
pageExamples("lib/node/README.md");
pageExamples("lib/store/README.md");
pageExamples("lib/take/README.md");
pageExamples("lib/progress/README.md");
pageExamples("lib/browser/README.md");
pageExamples("lib/page/README.md");
pageExamples("lib/rehearsal/README.md");
pageExamples("lib/server/README.md");
