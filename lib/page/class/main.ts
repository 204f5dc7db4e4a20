/// <reference lib="dom" />
/// <reference lib="dom.iterable" />
import { openClassPage } from "./openClassPage.js";

openClassPage(document.body).catch((error: unknown) => {
  // The page is not whole: nothing can be said in anybody's language any more.
  document.body.append(`${error}`);
  throw error;
});
