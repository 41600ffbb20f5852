import { type Answers, BRING_LIMITS, type BringRead, refuse } from "./brought.ts";
import { readDxf } from "./dxf.ts";
import { readGeoJson } from "./geojson.ts";
import { readLandXml } from "./landxml.ts";
import { readTable } from "./table.ts";

/** Reads a surveyor's file by its name's ending, and by its text where the name says nothing. */
export function readBring(text: string, name: string, answers: Partial<Answers> = {}): BringRead {
  if (text.length > BRING_LIMITS.textBytes) return refuse("tooLarge", `${BRING_LIMITS.textBytes / 1024 / 1024} MB`);
  if (text.trim() === "") return refuse("empty");
  const ending = /\.([a-z0-9]+)$/i.exec(name)?.[1]?.toLowerCase() ?? "";
  if (ending === "ifc" || text.startsWith("ISO-10303-21")) return refuse("ifc");
  // a table in two-byte letters or a binary file has noughts in it
  if (text.slice(0, 4096).includes("\u0000") || text.startsWith("AutoCAD Binary DXF")) return refuse("binary");
  if (ending === "dxf") return readDxf(text);
  if (ending === "xml" || ending === "landxml") return readLandXml(text);
  if (ending === "geojson" || ending === "json") return readGeoJson(text);
  if (["csv", "txt", "xyz", "pts", "asc", "tsv"].includes(ending)) return readTable(text, answers);
  if (/^\s*<(\?xml|LandXML)/.test(text)) return readLandXml(text);
  if (/^\s*\{/.test(text)) return readGeoJson(text);
  if (/^\s*0\s*\r?\n\s*SECTION/.test(text) || /^\s*999\r?\n/.test(text)) return readDxf(text);
  return ending === "" ? readTable(text, answers) : refuse("unknownKind", name);
}
