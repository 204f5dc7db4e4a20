// Generated from lib/words/catalogues by `npm run words`; change the catalogue instead.

import type { CatalogueOf } from "../catalogueOf.js";
import type { Form } from "./en-language.js";

export const messages: CatalogueOf<"store", Form> = {
  "store.write-ahead-log": () => `the server's write-ahead log until it is recycled`,
  "store.log-files": () => `the server's log files`,
  "store.server-copies": () => `backups and replicas of the server`,
  "store.crash-files": () => `files that a crash of the server left behind while it was rewriting tables`,
  "store.freed-blocks": () => `blocks of the disk that the file system has freed but not overwritten`,
  "store.statistics": () => `statistics of the tables that an earlier version let the server make: views, rules or policies on the tables keep them; drop these and erase again`,
  "store.statistics-files": (p, w) => `files of ${w.text(p.tables)}, if an earlier version let the server make statistics of the tables: the owner of the database clears them with ${w.text(p.command)}`,
  "store.file-copies": () => `copies of the file that were made elsewhere`,
  "store.browser-files": () => `files that the browser has not cleared yet`,
  "store.device-copies": () => `backups of the device`,
  "store.exported": () => `journals that were exported`,
};
