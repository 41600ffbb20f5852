import type { PaperWords } from "../papers.ts";
import { summary } from "./summary.ts";

const plural = (count: number, one: string, many: string): string => `${count} ${count === 1 ? one : many}`;

export const papers: PaperWords = {
  page: (number, of) => `Page ${number} of ${of}`,
  job: "Job",
  plan: "Job file",
  row: "Row",
  yes: "yes",
  no: "no",
  basis: ({ levels, straightedges, ties, defaults }) =>
    `Measured: outline${ties > 0 ? ` by ${plural(ties, "tape", "tapes")}` : " as given"}, ` +
    `${levels > 0 ? plural(levels, "level", "levels") : "no levels"}, ` +
    `${straightedges > 0 ? plural(straightedges, "straightedge reading", "straightedge readings") : "no straightedge readings"}. ` +
    `Assumed: ${defaults > 0 ? `${plural(defaults, "value", "values")} you left open, listed in the summary` : "nothing you left open"}; walls straight between the points given. ` +
    `Checked: the drawing against its own rules, not the building.`,
  notReleased:
    "Not released for drilling. Clip marks are left off until a named person has confirmed what lies in the base.",
  item: (code, name, { diameter, length, bag }) => {
    if (bag !== null) return `${name}, bags of ${bag} l`;
    if (code.startsWith("board-") || code.startsWith("fill-")) return name;
    if (code.startsWith("fixing-")) return `Fixing ${diameter} mm, at least ${length} mm long below the clip`;
    if (code.startsWith("trim-") && code !== "trim-screw")
      return `Angle trim ${name.replace(/^trim /, "").replaceAll(" x ", " × ")}`;
    return ITEMS[code] ? ITEMS[code].replace("%d", diameter) : name;
  },
  unit: { pc: "pc", m: "m", m2: "m²", l: "l", kg: "kg", bag: "bag" },
  order: {
    title: "Order list",
    item: "Item",
    what: "What",
    need: "Drawn",
    spare: "Spare",
    pack: "Pack",
    owned: "Your yard",
    ownedNote: "What comes from your own yard is neither bought nor priced here. Set it aside before the work begins.",
    buy: "Buy",
    unit: "Unit",
    price: "Price a unit",
    sum: "Sum",
    total: (money) => `Total of the priced lines: ${money}`,
    unpriced: (list) => `Without a price, and not in the total: ${list}.`,
    rounding: "Each line is whole packs times the price of one, rounded to the smallest coin; the total is their sum.",
    spares: (boards, slanting, least, clips, fixings) =>
      `Spares: boards ${boards}, with slanting cuts ${slanting}, at least ${least} in all; clips ${clips}; fixings and screws ${fixings}. Trim, filling, primer and bits carry no spare.`,
    noTax: "Prices as entered in the job. Tax, delivery and labour are not in this list.",
    currency: "Currency",
  },
  cuts: {
    title: "Cut list",
    how: (to, kerf) =>
      `Stops are rounded down to ${to} mm, so that gaps only grow. The saw takes ${kerf} mm. Measure from the left as the board lies with its face up and its lower groove towards you.`,
    whole: (count) => `Whole boards, no cut: ${count}.`,
    ahead: "Cut ahead",
    aheadNote: "One stop setting a line, longest first.",
    measured: "Cut when measured",
    measuredNote:
      "These close a row or the terrace. Lay up to them, measure, then cut. The figures are what the drawing expects.",
    none: "None.",
    boards: "Board by board",
    boardsNote: "Parts from the left end of each board, and what is left.",
    stop: "Stop",
    rip: "Rip to",
    count: "Pcs",
    pieces: "Piece (board)",
    shape: "Shape",
    done: "Done",
    piece: "Piece",
    board: "Board",
    boardLength: "Board length",
    at: "From left",
    width: "Width",
    near: "Near edge",
    far: "Far edge",
    when: "When",
    cutEnds: "Cut ends",
    parts: "Parts",
    rest: "Left over",
    turned: "turned",
    left: "Left ±",
    right: "Right ±",
    slanting:
      "Slanting ends: near is the edge towards the start line. Left ± and right ± say how far the end at the far edge stands to the right (+) or to the left (−) of the end at the near edge. Pieces marked * are cut to shape: see the set-out drawing, or scribe them in place.",
    ripNote:
      "Rip to: the width that stays; off: the edge the saw takes, near or far from the start line. Two figures: the width at the left end, then at the right end.",
    ripLeft: "Rip left",
    ripRight: "Rip right",
    off: "Off",
    edges: { near: "near", far: "far", both: "both" },
    shaped: "*",
    shapeWords: { square: "", slanting: "slanting", tapered: "tapered", shaped: "cut to shape" },
    whenWords: { ahead: "ahead", measured: "when measured" },
    ends: { none: "none", left: "left", right: "right", both: "both" },
  },
  stakes: {
    title: "Staking list",
    noLevels:
      "No levels were given, so there is nothing to grind or fill by figures. Take levels a metre apart or closer, and straightedge readings, then plan again.",
    noOption:
      "None of the ways to prepare this base holds its limits. See the findings in the summary; no heights are staked.",
    option: (name, cost) => `Chosen: ${name}. Provisional cost ${cost}.`,
    optionWords: {
      none: "the base as it is",
      patch: "patches",
      plane: "one new plane",
      facets: "each facet to its own plane",
    },
    how: "Heights above the survey's own zero. Minus: grind. Plus: fill. x and y from the site's origin.",
    number: "No.",
    x: "x",
    y: "y",
    now: "Is",
    shall: "Shall be",
    change: "Change",
    work: "Work",
    done: "Done",
    grind: "grind",
    fill: "fill",
    keep: "leave",
    material: (name, litres, bags) =>
      `${name}: ${litres} l${bags === null ? "" : `, ${bags} ${bags === "1" ? "bag" : "bags"}`}`,
    more: (count) => `${count} more readings stand in the CSV file of the same name.`,
    kept: (count) =>
      `Leave: ${count} ${count === "1" ? "reading is" : "readings are"} right as the base is and not listed here; the CSV file of the same name holds them all.`,
  },
  cards: {
    title: "Row cards",
    row: (number) => `Row ${number}`,
    card: (number, of) => `card ${number} of ${of}`,
    first: "start row",
    last: "last row",
    line: (near, far) => `From datum, left / right: near edge ${near} / ${near}, far edge ${far} / ${far}.`,
    stance: "You look away from the start line.",
    zero: (piece, from) =>
      `Tape zero: left end of ${piece}` +
      (from === null
        ? "."
        : from.side === "flush"
          ? `, flush with row ${from.row}.`
          : `, ${from.mm} mm to the ${from.side} of row ${from.row}'s left end.`),
    nearFirst: "Fix the near clips, then lay.",
    lastClips: "clips at the far edge",
    lastClipsHow: "Mark the line of these clips on the base, and fix them, before these boards lie.",
    endClips: (list) => `End clips at ${list}.`,
    noEndClips: "No end clip here.",
    shaped: "to shape",
    depth: (mm) => `Depth stop ${mm} mm.`,
    depths: (list) => `Depth stop: ${list}.`,
    depthPart: (from, to, mm) => (from === to ? `${mm} mm at ${from}` : `${mm} mm from ${from} to ${to}`),
    tiles: "Add tile and bedding.",
    noDrill: "NOT RELEASED FOR DRILLING: no clip marks",
    check: (near, far) => `CHECK LINE. From datum: near edge ${near} / ${near}, far edge ${far} / ${far}.`,
    number: "No.",
    piece: "Piece",
    length: "Length",
    cutEnd: "Cut end",
    groove: "Groove",
    from: "From",
    when: "Cut",
    ends: { none: "none", left: "left", right: "right", both: "both" },
    grooves: { both: "both", near: "near", far: "far", none: "none" },
    whenWords: { ahead: "ahead", measured: "measure" },
    boxLineLeft: "Line left",
    boxLineRight: "Line right",
    boxGapLeft: "Gap left",
    boxGapRight: "Gap right",
    boxBy: "Laid by",
    foot: "One stroke: cut end. Two: ripped. Checked on paper: measure before you drill or cut.",
    screws: (list) => `Screws through the board at ${list}.`,
    wholeBoard: "whole",
  },
  findings: {
    title: "Findings",
    how: "Stops first, then warnings, then notes. The numbers are those on the drawings. Places are x, y from the site's origin, mm.",
    none: "Nothing was found that needs your attention.",
    more: (count) => `${count} more stand in the plan file.`,
  },
  summary,
};

const ITEMS: Record<string, string> = {
  "clip-start": "Start clip",
  "clip-seam": "Clip between rows",
  "clip-last": "Clip for the last row",
  "clip-end": "End clip",
  screw: "Countersunk screw through boards",
  "trim-screw": "Countersunk screw for trims",
  primer: "Primer under filling",
  bit: "Drill bit %d mm",
};
