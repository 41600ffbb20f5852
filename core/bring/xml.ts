/** A small strict reader of XML: elements, attributes, text. No document types, no entities but the five of XML itself. */
import { BRING_LIMITS, type Refusal } from "./brought.ts";

export interface XmlHandler {
  open(name: string, attributes: Record<string, string>): void;
  text(text: string): void;
  close(name: string): void;
}
const NAME = /[A-Za-z_][\w.-]*(?::[A-Za-z_][\w.-]*)?/y;
const FIVE: Record<string, string> = { lt: "<", gt: ">", amp: "&", quot: '"', apos: "'" };

/** Runs through a document, names without their prefix. Null when it was whole, else why not. Linear in its length. */
export function readXml(text: string, handler: XmlHandler): { why: Refusal; detail: string } | null {
  const open: string[] = [];
  let at = text.charCodeAt(0) === 0xfeff ? 1 : 0;
  let rooted = false;
  const fault = (detail: string) => ({
    why: "notXml" as const,
    detail: `${detail} near row ${text.slice(0, at).split("\n").length}`,
  });
  while (at < text.length) {
    const next = text.indexOf("<", at);
    const run = text.slice(at, next < 0 ? text.length : next);
    if (open.length > 0 && run.trim() !== "") {
      const said = unescaped(run);
      if (said === null) return fault("an unknown entity");
      handler.text(said);
    } else if (open.length === 0 && run.trim() !== "") return fault("text outside the root");
    if (next < 0) break;
    at = next;
    if (text.startsWith("<!--", at)) {
      const end = text.indexOf("-->", at + 4);
      if (end < 0) return fault("a comment without end");
      at = end + 3;
    } else if (text.startsWith("<![CDATA[", at)) {
      const end = text.indexOf("]]>", at);
      if (end < 0 || open.length === 0) return fault("a section without end");
      handler.text(text.slice(at + 9, end));
      at = end + 3;
    } else if (text.startsWith("<!", at)) return { why: "docType", detail: "" };
    else if (text.startsWith("<?", at)) {
      const end = text.indexOf("?>", at);
      if (end < 0) return fault("an instruction without end");
      at = end + 2;
    } else if (text[at + 1] === "/") {
      const end = text.indexOf(">", at);
      const name = text.slice(at + 2, end < 0 ? at + 60 : end).trim();
      if (end < 0 || open.pop() !== name) return fault(`</${name.slice(0, 30)}> out of place`);
      handler.close(local(name));
      at = end + 1;
    } else {
      if (rooted && open.length === 0) return fault("a second root");
      const tag = readTag(text, at);
      if (typeof tag === "string") return fault(tag);
      rooted = true;
      at = tag.end;
      handler.open(local(tag.name), tag.attributes);
      if (tag.empty) handler.close(local(tag.name));
      else open.push(tag.name);
      if (open.length > BRING_LIMITS.depth) return { why: "tooDeep", detail: "" };
    }
  }
  if (open.length > 0) return fault(`<${open[open.length - 1]!.slice(0, 30)}> is not closed`);
  return rooted ? null : fault("no element");
}

interface Tag {
  name: string;
  attributes: Record<string, string>;
  empty: boolean;
  end: number;
}
function readTag(text: string, from: number): Tag | string {
  NAME.lastIndex = from + 1;
  const name = NAME.exec(text)?.[0];
  if (!name) return "a name is missing after <";
  const attributes: Record<string, string> = Object.create(null);
  let at = NAME.lastIndex;
  for (let count = 0; count < 200; count++) {
    while (/\s/.test(text[at] ?? "x")) at++;
    if (text[at] === ">") return { name, attributes, empty: false, end: at + 1 };
    if (text.startsWith("/>", at)) return { name, attributes, empty: true, end: at + 2 };
    NAME.lastIndex = at;
    const key = NAME.exec(text)?.[0];
    if (!key) return `<${name}> is torn`;
    at = NAME.lastIndex;
    while (/\s/.test(text[at] ?? "x")) at++;
    if (text[at++] !== "=") return `<${name}> is torn`;
    while (/\s/.test(text[at] ?? "x")) at++;
    const quote = text[at];
    if (quote !== '"' && quote !== "'") return `<${name}> is torn`;
    const end = text.indexOf(quote, at + 1);
    const value = end < 0 ? null : unescaped(text.slice(at + 1, end));
    if (value === null) return `<${name}> is torn`;
    attributes[local(key)] = value;
    at = end + 1;
  }
  return `<${name}> has too many attributes`;
}

function unescaped(text: string): string | null {
  if (!text.includes("&")) return text;
  let bad = false;
  const said = text.replace(/&([^;&]{0,12});?/g, (_, name: string) => {
    const code = /^#(?:x([0-9a-f]{1,6})|(\d{1,7}))$/i.exec(name);
    if (code) {
      const point = code[1] ? Number.parseInt(code[1], 16) : Number(code[2]);
      if (point > 0 && point <= 0x10ffff) return String.fromCodePoint(point);
    }
    if (Object.hasOwn(FIVE, name)) return FIVE[name]!;
    bad = true;
    return "";
  });
  return bad ? null : said;
}

function local(name: string): string {
  return name.slice(name.indexOf(":") + 1);
}
