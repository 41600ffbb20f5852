/** Figures of the trade that several stages judge by, each with its source. */

/** One hour after rain no water deeper than 5 mm or wider than 1 m2, none at doors: NHBC Standards 2018, 9.1.11. */
export const PUDDLE_DEPTH_MM = 5;
export const PUDDLE_AREA_MM2 = 1_000_000;
/** Fall towards a wall or door beyond this is water led to the house, %. Common practice, no source. */
export const ASIDE_PERCENT = 0.5;
