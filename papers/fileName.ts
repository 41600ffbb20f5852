const RESERVED = /^(con|prn|aux|nul|com\d|lpt\d)$/i;
/** Longest file name without its ending, characters. */
const LONGEST = 60;

/**
 * A name that no file system, archive or shell stumbles over: letters of any script, digits, hyphens; everything else
 * (slashes, dots, quotes, control and direction-turning characters) becomes one hyphen. Never empty, never reserved.
 */
export function safeFileName(name: string): string {
  const plain = name
    .normalize("NFC")
    .replace(/[^\p{L}\p{N}]+/gu, "-")
    .replace(/^-+|-+$/g, "");
  const cut = [...plain].slice(0, LONGEST).join("").replace(/-+$/, "");
  if (cut === "") return "job";
  return RESERVED.test(cut) ? `job-${cut}` : cut;
}
