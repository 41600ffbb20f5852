import { unzlibSync } from "fflate";

/**
 * A WOFF font unpacked to the plain OpenType file it holds, so that reading it again and again costs nothing.
 * Format: W3C WOFF File Format 1.0, section 4 (from memory): a directory of tables, each stored or zlib-packed.
 * Bytes that are not WOFF are given back as they are.
 */
export function unpackFont(bytes: Uint8Array): Uint8Array {
  const woff = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (bytes.length < 44 || woff.getUint32(0) !== WOFF) return bytes;
  const count = woff.getUint16(12);
  const tables = Array.from({ length: count }, (_, i) => {
    const entry = 44 + 20 * i;
    const [offset, packed, length] = [woff.getUint32(entry + 4), woff.getUint32(entry + 8), woff.getUint32(entry + 12)];
    const raw = bytes.subarray(offset, offset + packed);
    return {
      tag: woff.getUint32(entry),
      sum: woff.getUint32(entry + 16),
      data: packed < length ? unzlibSync(raw) : raw,
    };
  });
  const head = 12 + 16 * count;
  const out = new Uint8Array(tables.reduce((sum, table) => sum + padded(table.data.length), head));
  const font = new DataView(out.buffer);
  const power = 31 - Math.clz32(Math.max(1, count));
  font.setUint32(0, woff.getUint32(4));
  font.setUint16(4, count);
  font.setUint16(6, 16 << power);
  font.setUint16(8, power);
  font.setUint16(10, 16 * count - (16 << power));
  let at = head;
  tables.forEach((table, i) => {
    const entry = 12 + 16 * i;
    font.setUint32(entry, table.tag);
    font.setUint32(entry + 4, table.sum);
    font.setUint32(entry + 8, at);
    font.setUint32(entry + 12, table.data.length);
    out.set(table.data, at);
    at += padded(table.data.length);
  });
  return out;
}

/** "wOFF". */
const WOFF = 0x774f4646;

function padded(length: number): number {
  return (length + 3) & ~3;
}
