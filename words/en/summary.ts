import type { SummaryWords } from "../papers.ts";

export const summary: SummaryWords = {
  title: "Summary",
  verdict: {
    accept: "The base holds its limits as it is.",
    prepare: "The base must be prepared before laying.",
    "not-proven": "The base is not proven: the readings are too few to say that it holds its limits.",
    stop: "Stop: this base may not be covered as it is.",
    unknown: "The base is unknown: no levels were given. This plan is for the set-out only.",
  },
  figures: "Figures",
  net: "Boarded field, net",
  gross: "Site, gross",
  rowsPieces: "Rows, pieces",
  boards: (count, least) => `${count} (no plan with this set-out needs fewer than ${least})`,
  boardsLabel: "Boards to cut from",
  clips: "Clips",
  clipsOf: (start, seam, last, end) => `start ${start}, between rows ${seam}, last row ${last}, ends ${end}`,
  holes: "Holes in the base",
  cutsLabel: "Cuts across and rips",
  cuts: (count, rips) => `${count} and ${rips}`,
  metres: "Metres cut",
  waste: "Board left over",
  weight: "Weight of boards",
  weightOf: (kg, perM2) => `${kg} kg, ${perM2} kg/m² laid`,
  total: "Materials",
  totalOf: (money, unpriced) =>
    unpriced === 0
      ? money
      : `${money}, without ${unpriced === 1 ? "one item that has" : `${unpriced} items that have`} no price`,
  preparation: "Preparation (provisional)",
  prepared: (option, cost, low, high, kg) => `${option}: about ${cost}, between ${low} and ${high}; adds ${kg} kg`,
  nothingMoved: "nothing to grind or fill; what is wrong with the base stands in the findings",
  unprepared: "no way to prepare this base holds its limits",
  noPreparation: "not known without levels",
  hours: "Hours of people",
  hoursOf: (low, high, lowDays, highDays) =>
    `${low} to ${high} hours: one person for ${lowDays} ${lowDays === "1" ? "day" : "days"}, or two people for ${highDays} ${highDays === "1" ? "day" : "days"}`,
  hoursHow:
    "Hours: low, one person at 15 m² in 5 h, drilling in it; high, two people at that pace and 45 s a hole on top (double through tiles); an hour a day to set up and clear away, 8 h days. Common practice, no source.",
  doors: "Doors and guards",
  door: (side, sill, step, over, leaf) =>
    `Door on side ${side}: ` +
    [
      sill === null ? "sill not measured" : `sill ${sill} mm above the base`,
      step === null
        ? null
        : over
          ? `floor ends up ${step} mm above the sill`
          : `step to the sill ${step} mm after laying`,
      leaf === null ? null : `leaf clears ${leaf} mm`,
    ]
      .filter((part) => part !== null)
      .join(", ") +
    ".",
  rise: (mm) =>
    `The floor rises by ${mm} mm. Every step, upstand, weep slot, gully and guard rail is that much lower above it: measure guards from the finished surface. Local code sets the limit.`,
  findings: "Findings",
  finding: (says, doThis, count, place) =>
    [
      count > 1 && !place ? `${says} (${count} times)` : says,
      place ? `At ${place}${count > 1 ? ` and ${count - 1} more ${count === 2 ? "place" : "places"}` : ""}.` : "",
      doThis,
    ]
      .filter((part) => part !== "")
      .join(" "),
  levels: { stop: "STOP", warn: "Warning", note: "Note" },
  noFindings: "None.",
  moreFindings: (count) => `${count} more ${count === "1" ? "kind stands" : "kinds stand"} in the list of findings.`,
  remediesElsewhere: "What to do about each stands in the list of findings.",
  cautions: "Cautions",
  caution: {
    silica:
      "Drilling, cutting and grinding mineral bases makes silica dust: extraction or water, a fitting mask, no dry sweeping.",
    compositeDust: "Board dust: extraction, mask, sweep it up before rain takes it away.",
    saw: "Saw: eyes, ears, hands clear, board held down.",
    services: "Before any hole: find cables, pipes, heating and tendons.",
    rcd: "Outdoors and near water: a residual current device.",
    edgeHeight: "Height: guard the edge while you work, and check the guard's height above the new floor.",
    load: "Balcony or roof: the added weight needs someone named who permits it.",
    slips: "Wet boards are slippery.",
    poolSlips: "Round a pool people walk wet and barefoot: ask for the barefoot class.",
    hotSurface: "Boards grow hot in the sun.",
    lifting: "Lift packs by two.",
    wetCement: "Wet mortar and compound burn skin and eyes: gloves, goggles, wash at once.",
    vibration: "Hundreds of holes: share the hammer drill, take breaks.",
    peopleBelow: "Nobody below while you drill a balcony.",
    asbestos: "Old adhesive under tiles may hold asbestos: have it tested; licensed people remove it.",
    film: "Protective film off as soon as laying ends: weathered, it bonds.",
  },
  defer: "No legal advice: local codes and licensed practice decide.",
  why: "Why so",
  assumptions: "Assumptions",
  assumed: (list) => `Values the job leaves open and the plan takes by default (the plan file lists each): ${list}.`,
  values: ({ side, end, edge, clear, between, kerf }) =>
    `Gaps between rows ${side}, at joints ${end}, at walls ${edge} mm; clips at most ${clear} mm apart ${between === "clear" ? "in the clear" : "centre to centre"}; saw cut ${kerf} mm.`,
  noAssumptions: "Nothing was left open in the job.",
  exclusions: "Not included",
  excluded:
    "Taking up and carting away what lies there, repairs to the base beyond the preparation named, waterproofing, drains, electrical work, changes to doors and guards, tax, delivery, waste.",
  releasedBy: {
    reading: "Released by a reading.",
    person: "Released by a named person.",
    document: "Released by a document.",
  },
};
