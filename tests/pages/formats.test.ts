import { pageExamples } from "./pageExamples.js";

pageExamples("schemas/README.md");
