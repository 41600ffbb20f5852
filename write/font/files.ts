/**
 * The font of every paper: Atkinson Hyperlegible Next (SIL Open Font License 1.1), told apart at a glance: 1 l I, 0 O,
 * 6 8 B, with figures of equal width. Read unchanged from its npm package by whoever does input and output.
 */
export interface FontBytes {
  /** Western letters first, then the rest of the Latin ones: the first that has a character draws it. */
  regular: readonly Uint8Array[];
  bold: readonly Uint8Array[];
}
const FOLDER = "@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next";
/** Module paths of the files, in the order of `FontBytes`. */
export const FONT_FILES: { regular: readonly string[]; bold: readonly string[] } = {
  regular: [`${FOLDER}-latin-400-normal.woff`, `${FOLDER}-latin-ext-400-normal.woff`],
  bold: [`${FOLDER}-latin-700-normal.woff`, `${FOLDER}-latin-ext-700-normal.woff`],
};
