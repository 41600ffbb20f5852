/**
 * A sentence as a terminal may show it: names come from files of others, and a name can hold what moves the cursor,
 * colours the screen or turns the reading direction. Such characters are shown as U+FFFD; line breaks and tabs stay.
 */
export function forTerminal(text: string): string {
  return text.replace(COMMANDS, "\ufffd");
}

/** C0 but tab and line feed, DEL, C1, and the marks that override or isolate direction. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
const COMMANDS = /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u200e\u200f\u202a-\u202e\u2066-\u2069]/g;
