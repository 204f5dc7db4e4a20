/**
 * Something to be said to a person, before it is worded: which sentence, and what it speaks of. A language's catalogue words it
 * (`leeway/words`). Numbers are plain values in the unit that the catalogue names; a text is data, such as the name of a drill.
 */
export interface Message {
  /** Name of the message in the catalogues: "take.went-off". */
  readonly key: string;
  readonly parameters: Readonly<Record<string, number | MessageText>>;
}

/** A message that is part of a sentence: "half a bar of silence". It holds no other. */
export interface Phrase {
  readonly key: string;
  readonly parameters: Readonly<Record<string, string | number>>;
}

/** What stands in a sentence as text: a name, a phrase, or several of either. */
export type MessageText = string | Phrase | readonly (string | Phrase)[];

/** A message with its English sentence. */
export interface Worded<M extends Message = Message> {
  readonly says: string;
  readonly message: M;
}
