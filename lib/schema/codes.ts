/** Problems with the shape of a document, whatever the document is. */
export const schemaCodes = {
  FORMAT_VERSION_UNKNOWN: {
    severity: "error",
    means: "A document is of a later version of its format than this leeway knows.",
  },
  FORMAT_VERSION_FORMER: {
    severity: "error",
    means: "A document is of a former version of its format, and is to be made anew from the journal.",
  },
  UNKNOWN_KEY: {
    severity: "error",
    means: "A key that means nothing here, usually a misspelling; the place is that of the key.",
  },
  MISSING_KEY: { severity: "error", means: "A key that has to be there is not." },
  WRONG_TYPE: { severity: "error", means: "A text where a number belongs, a list where a text belongs, and the like." },
  NOT_ONE_OF: { severity: "error", means: "A value outside a fixed list of values." },
  NO_SUCH_FORM: {
    severity: "error",
    means: "Something that can be written in several forms is written in none of them.",
  },
  TEXT_FORM: {
    severity: "error",
    means: "A text that is not written the way it has to be, such as a span, a pitch or a time.",
  },
  TEXT_LENGTH: { severity: "error", means: "A text that is too short or too long." },
  NAME_FORM: {
    severity: "error",
    means: "A name with characters that names cannot have; the place is that of the name.",
  },
  NUMBER_OUT_OF_RANGE: { severity: "error", means: "A number below the least or above the greatest allowed." },
  TOO_MANY: { severity: "error", means: "A list or a group of keys with too many entries." },
  TOO_FEW: { severity: "error", means: "A list or a group of keys with too few entries." },
  REPEATED_ITEM: { severity: "error", means: "The same entry twice in a list whose entries differ." },
  KEYS_TOGETHER: { severity: "error", means: "Keys that exclude each other, or a key that needs another beside it." },
  TOO_DEEP: {
    severity: "error",
    means: "Lists and groups of keys nested deeper than any document needs, or containing themselves.",
  },
  NOT_DATA: { severity: "error", means: "Something that JSON cannot hold, such as a function or a date object." },
  MORE_PROBLEMS: { severity: "error", means: "There are more problems than are listed." },
} as const;
