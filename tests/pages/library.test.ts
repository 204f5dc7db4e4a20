import { pageExamples } from "./pageExamples.js";

pageExamples("lib/README.md");
