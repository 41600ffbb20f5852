import type { AppWords } from "../app.ts";
import { figures } from "../figures.ts";
import { base, field, prepare } from "./app/base.ts";
import { board } from "./app/board.ts";
import { bring } from "./app/bring.ts";
import { cut } from "./app/cut.ts";
import { fix } from "./app/fix.ts";
import { handover, lay } from "./app/lay.ts";
import { measure, pad } from "./app/measure.ts";
import { days, order, price } from "./app/order.ts";
import { setout } from "./app/setout.ts";

/** English: every word of the browser app. */
export const app: AppWords = {
  language: "en",
  write: figures({ decimal: ".", thin: "\u2009" }),
  name: "Rowline",
  about: "From the tape to the last row: terraces laid straight on what is there.",
  steps: {
    measure: { name: "Measure", hint: "Outline, doors, posts, levels" },
    base: { name: "Base", hint: "Can it be laid on as it is?" },
    prepare: { name: "Prepare", hint: "What to grind, what to fill" },
    setout: { name: "Set out", hint: "Direction, bond, first and last row" },
    fix: { name: "Fix", hint: "Every clip and every hole" },
    cut: { name: "Cut", hint: "Which piece from which board" },
    order: { name: "Order", hint: "What to buy, in packs" },
    price: { name: "Price", hint: "Materials, hours, quotation" },
    days: { name: "Days", hint: "Who comes when, what dries how long" },
    lay: { name: "Lay", hint: "Row by row, as it really goes" },
    handover: { name: "Hand over", hint: "As built, checks, care" },
  },
  edits: {
    outline: "the outline",
    sides: "a side",
    cutouts: "a cut-out",
    areas: "an area",
    levels: "the levels",
    ties: "the tapes",
    base: "the base",
    limits: "the limits",
    preparation: "the preparation",
    board: "the board",
    gaps: "the gaps",
    clips: "the clips",
    bond: "the bond",
    cut: "the cutting rules",
    trim: "the trim",
    spares: "the spares",
    prices: "the prices",
    work: "the work",
    client: "the client",
    title: "the title",
    laying: "the plan after what was laid",
    handover: "the handover",
    import: "what was brought in",
    open: "the opened file",
  },
  stages: {
    read: "Reading the job",
    surface: "Judging the base",
    preparation: "Weighing the preparation",
    setout: "Setting out the rows",
    bond: "Placing the joints",
    fixing: "Placing the clips",
    cutting: "Cutting the boards",
    laying: "Putting the work in order",
    takeoff: "Counting what to buy",
    site: "Looking at doors and water",
    check: "Proving the plan",
    draw: "Drawing",
    papers: "Writing the papers",
  },
  board,
  setout,
  fix,
  cut,
  measure,
  pad,
  bring,
  field,
  base,
  prepare,
  order,
  price,
  days,
  lay,
  handover,
  shell: {
    road: "Steps of the job",
    drawing: "Drawing of the terrace",
    undoShort: "Undo",
    redoShort: "Redo",
    undo: (what) => (what ? `Undo ${what}` : "Nothing to undo"),
    redo: (what) => (what ? `Redo ${what}` : "Nothing to redo"),
    saving: "Saving",
    saved: "Saved on this device",
    notSaved: "Not saved. This device takes no more. Save the job as a file now.",
    notLasting: "This window keeps nothing. Save the job as a file before you close it.",
    panelFault:
      "This step came to a halt on the job as it is. Undo your last change, or open another step. Nothing you entered is lost.",
    remove: "Remove",
    removeAgain: "For good",
    removeJob: (title) => `Remove ${title} from this device`,
    removeSure: (title) => `Remove ${title} for good? Its undo goes with it. Tap once more.`,
    persisted: (answer) =>
      answer === "granted"
        ? "This device keeps your jobs until you delete them."
        : answer === "refused"
          ? "This device may clear your jobs when it runs short of room. Save each job as a file too."
          : "This device does not say how long it keeps your jobs. Save each job as a file too.",
    skipped: (count) =>
      count === 1
        ? "One record here is from another version. It is kept, and not used."
        : `${count} records here are from another version. They are kept, and not used.`,
    working: (stage) => `${stage} \u2026`,
    stop: "Stop",
    stopped: "Stopped. The drawing shows the plan before your last change.",
    planAgain: "Plan again",
    broken:
      "The planner came to a halt on this job. Nothing you entered is lost. Take back your last change, or send us the job file.",
    findings: (count) => (count === 1 ? "1 finding" : `${count} findings`),
    noFindings: "Nothing to warn of.",
    level: { stop: "Stop", warn: "Warning", note: "Note" },
    problems: (count) =>
      count === 1 ? "One thing stands in the way of a plan" : `${count} things stand in the way of a plan`,
    unproved: "This plan did not stand the check. Do not build from it.",
    menu: "Job",
    close: "Close",
    jobs: "Your jobs",
    newJob: "New job",
    newTitle: "Terrace",
    openFile: "Open a file",
    saveFile: "Save the project",
    jobFile: "Save the job alone",
    papers: "Papers",
    paperMaking: "Writing the papers \u2026",
    notOurFile: (name) =>
      `${name} is neither a project nor a job of Rowline. Choose a file that ends in .project.json or .job.json.`,
    newerFile: (name, format) =>
      `${name} is of a later Rowline (${format}). Open this page with a signal once, so that the newer version comes, then open the file again.`,
    fileProblems: (name, count) =>
      count === 1
        ? `${name} was not opened. One thing stands in the way:`
        : `${name} was not opened. ${count} things stand in the way:`,
    tooLarge: (name, megabytes) => `${name} is larger than ${megabytes} MB. Thin the readings or split the job.`,
    openedAnew: (name) =>
      `${name} is open. Its job and what was laid are complete; the steps that led there could not be read, so undo starts from here.`,
    paperNames: {
      "summary.pdf": "Summary",
      "findings.pdf": "Findings",
      "base.pdf": "Base",
      "staking.pdf": "Staking list",
      "setout.pdf": "Set-out",
      "fixing.pdf": "Clips and holes",
      "cutlist.pdf": "Saw list",
      "cards.pdf": "Row cards",
      "order.pdf": "Order",
      "setout.dxf": "Set-out for CAD (DXF)",
      "order.xlsx": "Order as a table (XLSX)",
      "plan.json": "Plan for other programs (JSON)",
    },
    papersWait: "There are papers as soon as there is a plan that stood the check.",
    papersFailed: "The paper was not written. Try again; if it does not come, plan again first.",
    dropHere: "Drop a project or job file here to open it.",
    title: "Name of the job",
    safeKeeping: "Safe keeping",
    settings: "How it looks and speaks",
    files: "Files",
    today: "Open now",
    language: "Language",
    units: "Measures",
    metric: "Metric",
    imperial: "Feet and inches",
    ground: "Light",
    grounds: { day: "Day", evening: "Evening", sun: "Bright sun" },
    offlineReady: "Ready to work without a signal.",
    updateWaits: "A newer version is here. It starts when you next open Rowline.",
    comesLater: "This step has its place here. Its figures come from the plan.",
    bigger: "Closer",
    smaller: "Farther",
    whole: "Whole terrace",
  },
};
