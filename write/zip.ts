/**
 * A ZIP archive with its files stored as they are: no compression, no dates (1 January 1980), so the same files give the
 * same bytes everywhere. Format: PKWARE APPNOTE 6.3, local headers, central directory, end record; names in UTF-8.
 * For archives below 4 GiB with fewer than 65,536 files, which is far beyond an order list.
 */
export function zipStored(files: readonly { name: string; bytes: Uint8Array }[]): Uint8Array {
  const utf8 = new TextEncoder();
  const parts: Uint8Array[] = [];
  const directory: Uint8Array[] = [];
  let offset = 0;
  for (const file of files) {
    const name = utf8.encode(file.name);
    const common = [le16(20), le16(0x0800), le16(0), le16(0), le16(0x0021), le32(crc32(file.bytes))];
    const sizes = [le32(file.bytes.length), le32(file.bytes.length), le16(name.length), le16(0)];
    const local = joined([le32(0x04034b50), ...common, ...sizes, name]);
    const rest = [le16(0), le16(0), le16(0), le32(0), le32(offset), name];
    directory.push(joined([le32(0x02014b50), le16(20), ...common, ...sizes, ...rest]));
    parts.push(local, file.bytes);
    offset += local.length + file.bytes.length;
  }
  const central = joined(directory);
  const count = le16(files.length);
  const end = [le32(0x06054b50), le16(0), le16(0), count, count, le32(central.length), le32(offset), le16(0)];
  return joined([...parts, central, ...end]);
}

/** CRC-32 (ISO 3309, polynomial 0xedb88320 reflected), as ZIP wants it. */
export function crc32(bytes: Uint8Array): number {
  let crc = 0xffffffff;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit++) crc = (crc >>> 1) ^ (crc & 1 ? 0xedb88320 : 0);
  }
  return (crc ^ 0xffffffff) >>> 0;
}

function le16(value: number): Uint8Array {
  return Uint8Array.of(value & 255, (value >>> 8) & 255);
}

function le32(value: number): Uint8Array {
  return Uint8Array.of(value & 255, (value >>> 8) & 255, (value >>> 16) & 255, (value >>> 24) & 255);
}

function joined(parts: readonly Uint8Array[]): Uint8Array {
  const out = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    out.set(part, at);
    at += part.length;
  }
  return out;
}
