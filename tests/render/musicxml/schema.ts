import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { XmlBufferInputProvider, XmlDocument, XsdValidator, xmlRegisterInputProvider } from "libxml2-wasm";
import { ROOT } from "../../sources.js";

/** The MusicXML 4.0 schema as the W3C Music Notation Community Group publishes it. */
const SCHEMA = join(ROOT, "..", "shared", "reference", "musicxml", "schema");

/** Whether the schema is at hand; says so when not. */
export const schemaIsThere: boolean = existsSync(join(SCHEMA, "musicxml.xsd"));
if (!schemaIsThere) console.log(`SKIPPED: validation against the MusicXML 4.0 schema, ${SCHEMA} is not there`);

let validator: XsdValidator | undefined;

/** What the schema has against a document; empty when it is valid. Nothing is fetched: the two imported schemas come from the folder too. */
export function schemaComplaints(xml: string): readonly string[] {
  validator ??= loaded();
  const document = XmlDocument.fromString(xml);
  try {
    validator.validate(document);
    return [];
  } catch (error) {
    const details = (error as { details?: readonly { message: string; line?: number }[] }).details;
    return details?.map(({ message, line }) => `line ${line}: ${message.trim()}`) ?? [String(error)];
  } finally {
    document.dispose();
  }
}

function loaded(): XsdValidator {
  const read = (name: string): Uint8Array => readFileSync(join(SCHEMA, name));
  xmlRegisterInputProvider(
    new XmlBufferInputProvider({ "schema/xml.xsd": read("xml.xsd"), "schema/xlink.xsd": read("xlink.xsd") }),
  );
  const text = readFileSync(join(SCHEMA, "musicxml.xsd"), "utf8").replaceAll("http://www.musicxml.org/xsd/", "");
  return XsdValidator.fromDoc(XmlDocument.fromBuffer(new TextEncoder().encode(text), { url: "schema/musicxml.xsd" }));
}
