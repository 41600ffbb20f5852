/** The version a plan file carries; the same as package.json's (tested). */
export const ENGINE = "0.1.0";
