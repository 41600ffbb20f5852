import type { Figures } from "../words.ts";

type Data = Record<string, number | string>;
const n = (value: number | string | undefined): number => Number(value ?? 0);

/** Why the set-out is as it is: one sentence for each reason code of the set-out and the bond. */
export const reasons: Record<string, (data: Data, write: Figures) => string> = {
  angleGiven: (d, w) =>
    `The rows run at ${w.number(n(d.angle), n(d.angle) % 1 === 0 ? 0 : 1)}°: the angle of the job, given or by default.`,
  angleAlongSide: (d, w) =>
    `The rows run at ${w.number(n(d.angle), 1)}°, by side ${n(d.side) + 1}: fewest slanting cuts and ripped edges.`,
  angleAlongFall: (d, w) =>
    `The rows run at ${w.number(n(d.angle), 1)}°, by side ${n(d.side) + 1}: the channels then run down the fall.`,
  angleDefault: () => "The rows run along the drawing's x direction: no straight side says otherwise.",
  rowsGiven: (d, w) => `The first row is ${w.mm(n(d.firstMm))} mm wide, as the job asks.`,
  rowsOther: (d, w) =>
    `The first row is ${w.mm(n(d.firstMm))} mm wide: the beginning that looked best did not stand up to the checker, this one does.`,
  rowsFit: (d, w) => `Whole boards fill the width at the usual gap of ${w.mm1(n(d.gapMm))} mm.`,
  rowsSpread: (d, w) => `With gaps of ${w.mm1(n(d.gapMm))} mm instead of ${w.mm1(n(d.nominalMm))} mm no row is ripped.`,
  rowsFullFirst: (d, w) => `The first row is a full board; the rip of ${w.mm(n(d.lastMm))} mm lies at the end.`,
  rowsFullLast: (d, w) => `The last row is a full board; the rip of ${w.mm(n(d.firstMm))} mm lies at the start.`,
  rowsShared: (d, w) =>
    `One rip alone would be too narrow or in sight, so it is shared: ${w.mm(n(d.firstMm))} mm at the start, ${w.mm(n(d.lastMm))} mm at the end.`,
  shiftGiven: (d, w) => `The first joint lies ${w.mm(n(d.shiftMm))} mm from the row's start, as the job asks.`,
  shiftOther: (d, w) =>
    `The first joint lies ${w.mm(n(d.shiftMm))} mm from the row's start: the place that looked best did not stand up to the checker, this one does.`,
  shiftChosen: (d, w) =>
    n(d.moved) === 0
      ? `The first joint lies ${w.mm(n(d.shiftMm))} mm from the row's start: no joint leaves the bond, and the shortest end piece is ${w.mm(n(d.smallestMm))} mm.`
      : `The first joint lies ${w.mm(n(d.shiftMm))} mm from the row's start: of all shifts it moves the fewest joints off the bond (${n(d.moved)}).`,
  noJoints: (d, w) => `No row is longer than a board of ${w.mm(n(d.boardMm))} mm, so there is no joint.`,
  freeJoints: (d) =>
    `Joints are chosen together with the cutting: ${n(d.boards)} boards and ${n(d.cuts)} cuts, against ${n(d.practiceBoards)} and ${n(d.practiceCuts)} when each row starts with the last row's offcut.`,
};
