/** What a front door (command line, browser, server) gets back: text to say, files to keep, and how it ended. */
export interface OutFile {
  /** Plain file name, no folder. */
  name: string;
  bytes: Uint8Array | string;
}
export interface Outcome {
  /** 0 done; 1 internal: a plan that could not be proved; 2 the input is wrong; 3 done, and a finding says stop. */
  exit: 0 | 1 | 2 | 3;
  /** The answer in sentences, for people. */
  lines: string[];
  /** What is wrong with the input, one line each. */
  problems: string[];
  /** The machine form of the answer. */
  json: unknown;
  files: OutFile[];
}
/** A text with the name it is spoken of by. */
export interface NamedText {
  name: string;
  text: string;
}
