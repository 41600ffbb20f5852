/**
 * Spoilt plans for the judge's own test: each takes a plan that stands and breaks one thing a careless or dishonest
 * planner might break. `rule` is the rule under which the judge must refuse it.
 */
import type { Clip, Piece, PlanFile, PlanFinding } from "../plan/plan.ts";

export interface Spoil {
  name: string;
  /** Which of the test's plans it spoils. */
  on: "yard" | "free" | "rough";
  rule: string;
  spoil(plan: PlanFile): void;
}

const piece = (plan: PlanFile, id: string): Piece => plan.pieces.find((p) => p.id === id)!;
const joint = (plan: PlanFile, n = 0) => plan.joints[n]!;
/** A joint of two whole boards' worth of row, well inside. */
const jointClip = (plan: PlanFile): Clip => {
  const j = plan.joints.find((one) => one.row === 3)!;
  return plan.clips.find((c) => c.kind === "seam" && c.seam === 3 && j.pieces.every((id) => c.holds.includes(id)))!;
};
const seamClip = (plan: PlanFile): Clip =>
  plan.clips.find((c) => c.kind === "seam" && c.seam === 2 && c.holds.length === 2)!;
const dropClip = (plan: PlanFile, clip: Clip): void => {
  plan.clips = plan.clips.filter((c) => c !== clip);
  for (const step of plan.laying) {
    step.clipsBefore = step.clipsBefore.filter((id) => id !== clip.id);
    step.clipsAfter = step.clipsAfter.filter((id) => id !== clip.id);
  }
  plan.figures.clips[clip.kind]--;
  const line = plan.takeoff.find((one) => one.item === `clip-${clip.kind}`)!;
  line.need--;
};
const finding = (rule: string, level: PlanFinding["level"], at: [number, number]): PlanFinding => ({
  rule,
  code: rule,
  level,
  at,
  found: null,
  limit: null,
  says: "",
  do: "",
  releasedBy: null,
});
/** A crowd of findings of every excusable rule over the whole site. */
const crowd = (plan: PlanFile, level: PlanFinding["level"], rules: string[]): void => {
  for (let x = 0; x <= 5000; x += 250)
    for (let y = 0; y <= 4000; y += 250) for (const rule of rules) plan.findings.push(finding(rule, level, [x, y]));
};
const EXCUSABLE = [
  "cover",
  "bond",
  "stagger",
  "minPiece",
  "minRip",
  "clips",
  "clipEnd",
  "clipSpacing",
  "jointClip",
  "endClip",
  "slabEdge",
  "baseJoint",
  "oneEdge",
  "captive",
];
const move = (ring: [number, number][], dx: number, dy: number): void => {
  for (const p of ring) {
    p[0] = Math.round((p[0] + dx) * 1000) / 1000;
    p[1] = Math.round((p[1] + dy) * 1000) / 1000;
  }
};
/** Board with at least two parts, all rectangles. */
const shared = (plan: PlanFile) =>
  plan.boards.find((b) => b.parts.length > 1 && b.parts.every((p) => p.ring === null))!;
const plainInside = (plan: PlanFile): Piece =>
  plan.pieces.find((p) => p.row === 3 && p.ring.length === 4 && p.holes.length === 0)!;
const line = (plan: PlanFile, start: string) => plan.takeoff.find((one) => one.item.startsWith(start))!;

export const SPOILS: Spoil[] = [
  {
    name: "another job's hash",
    on: "yard",
    rule: "hash",
    spoil: (p) => {
      p.job = p.job.replace(/^./, (c) => (c === "0" ? "1" : "0"));
    },
  },
  {
    name: "rows turned away from the job's direction",
    on: "yard",
    rule: "frame",
    spoil: (p) => {
      p.frame.angle = 0.5;
    },
  },
  {
    name: "nothing laid behind a crowd of notes",
    on: "yard",
    rule: "cover",
    spoil(p) {
      p.pieces = [];
      p.joints = [];
      p.clips = [];
      p.boards = [];
      p.laying = [];
      p.screws = [];
      for (const row of p.rows) row.pieces = [];
      crowd(p, "note", EXCUSABLE);
    },
  },
  {
    name: "nothing laid behind a crowd of warnings of other rules",
    on: "yard",
    rule: "cover",
    spoil(p) {
      p.pieces = [];
      p.rows = [];
      p.joints = [];
      crowd(
        p,
        "stop",
        EXCUSABLE.filter((rule) => rule !== "cover"),
      );
    },
  },
  {
    name: "one row missing",
    on: "yard",
    rule: "rows",
    spoil(p) {
      const gone = new Set(p.rows[4]!.pieces);
      p.rows.splice(4, 1);
      p.pieces = p.pieces.filter((one) => !gone.has(one.id));
    },
  },
  {
    name: "a row's strip too wide",
    on: "yard",
    rule: "rows",
    spoil: (p) => {
      p.rows[2]!.v[1] += 0.5;
    },
  },
  {
    name: "a row that does not name its pieces",
    on: "yard",
    rule: "rows",
    spoil: (p) => {
      p.rows[2]!.pieces.pop();
    },
  },
  {
    name: "a piece left out of a row",
    on: "yard",
    rule: "cover",
    spoil: (p) => {
      p.pieces = p.pieces.filter((one) => one !== plainInside(p));
    },
  },
  {
    name: "a piece moved out of the field",
    on: "yard",
    rule: "field",
    spoil: (p) => move(p.pieces.find((one) => one.row === 3)!.ring, -12, 0),
  },
  {
    name: "a piece that lies on its neighbour",
    on: "yard",
    rule: "overlap",
    spoil: (p) => {
      move([piece(p, joint(p, 3).pieces[1]).ring[0]!, piece(p, joint(p, 3).pieces[1]).ring[3]!], -9, 0);
    },
  },
  { name: "a piece that leaves its strip", on: "yard", rule: "pieces", spoil: (p) => move(plainInside(p).ring, 0, 1) },
  {
    name: "a length that is not the piece's",
    on: "yard",
    rule: "pieces",
    spoil: (p) => {
      plainInside(p).length += 1;
    },
  },
  {
    name: "an outline that crosses itself",
    on: "yard",
    rule: "pieces",
    spoil(p) {
      const { ring } = plainInside(p);
      [ring[0], ring[1]] = [ring[1]!, ring[0]!];
    },
  },
  {
    name: "a ring finer than the file's rounding",
    on: "yard",
    rule: "pieces",
    spoil: (p) => {
      plainInside(p).ring[0]![0] += 0.0004;
    },
  },
  {
    name: "a figure that is none",
    on: "yard",
    rule: "format",
    spoil: (p) => {
      plainInside(p).ring[0]![0] = Number.NaN;
    },
  },
  {
    name: "a figure past all measure",
    on: "yard",
    rule: "format",
    spoil: (p) => {
      p.clips[0]!.at[0] = 1e300;
    },
  },
  {
    name: "a name used twice",
    on: "yard",
    rule: "format",
    spoil: (p) => {
      p.clips[1]!.id = p.clips[0]!.id;
    },
  },
  {
    name: "pieces out of order",
    on: "yard",
    rule: "format",
    spoil: (p) => {
      p.pieces.reverse();
    },
  },
  {
    name: "a cut-out boarded over",
    on: "yard",
    rule: "field",
    spoil(p) {
      const notched = p.pieces.find((one) => one.ring.length > 4)!;
      const xs = notched.ring.map((q) => q[0]);
      const ys = notched.ring.map((q) => q[1]);
      const [x0, x1, y0, y1] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
      notched.ring = [
        [x0, y0],
        [x1, y0],
        [x1, y1],
        [x0, y1],
      ];
    },
  },
  {
    name: "a joint named twice",
    on: "yard",
    rule: "joints",
    spoil: (p) => {
      p.joints.push({ ...joint(p, 2) });
    },
  },
  {
    name: "a joint not named",
    on: "yard",
    rule: "joints",
    spoil: (p) => {
      p.joints.splice(2, 1);
    },
  },
  {
    name: "a joint beside the middle of its gap",
    on: "yard",
    rule: "joints",
    spoil: (p) => {
      joint(p, 2).u += 1;
    },
  },
  {
    name: "an end gap too wide",
    on: "yard",
    rule: "gaps",
    spoil(p) {
      const right = piece(p, joint(p, 2).pieces[1]);
      move([right.ring[0]!, right.ring[3]!], 1.5, 0);
      right.length -= 1.5;
      joint(p, 2).u += 0.75;
    },
  },
  { name: "a joint off the bond, with no finding", on: "yard", rule: "bond", spoil: shiftJoint },
  {
    name: "a joint off the bond, the finding 401 mm away",
    on: "yard",
    rule: "bond",
    spoil(p) {
      const at = shiftJoint(p);
      p.findings.push(finding("bond", "warn", [at[0] + 401, at[1]]));
    },
  },
  {
    name: "a joint off the bond, named by a note",
    on: "yard",
    rule: "bond",
    spoil(p) {
      const at = shiftJoint(p);
      p.findings.push(finding("bond", "note", at));
    },
  },
  {
    name: "a joint off the bond, named under another rule",
    on: "yard",
    rule: "bond",
    spoil(p) {
      const at = shiftJoint(p);
      p.findings.push(finding("stagger", "warn", at));
    },
  },
  {
    name: "a bond of a board nobody sells",
    on: "yard",
    rule: "bond",
    spoil: (p) => {
      p.bond.length = 1501;
    },
  },
  {
    name: "joints of neighbouring rows in line",
    on: "free",
    rule: "stagger",
    spoil(p) {
      const low = p.joints.find((j) => j.row === 2)!;
      const high = p.joints
        .filter((j) => j.row === 3)
        .sort((a, b) => Math.abs(a.u - low.u) - Math.abs(b.u - low.u))[0]!;
      shiftAt(p, high, low.u - high.u);
    },
  },
  {
    name: "a piece on two boards",
    on: "yard",
    rule: "boards",
    spoil: (p) => {
      p.boards[1]!.parts.push({ ...p.boards[0]!.parts[0]! });
    },
  },
  {
    name: "a piece on no board",
    on: "yard",
    rule: "boards",
    spoil: (p) => {
      shared(p).parts.pop();
    },
  },
  {
    name: "cuts that overlap on a board",
    on: "yard",
    rule: "overlap",
    spoil: (p) => {
      shared(p).parts[1]!.at[0] -= shared(p).parts[0]!.size[0] / 2;
    },
  },
  {
    name: "the kerf eaten",
    on: "yard",
    rule: "kerf",
    spoil(p) {
      const [a, b] = [...shared(p).parts].sort((s, t) => s.at[0] - t.at[0]);
      b!.at[0] = a!.at[0] + a!.size[0] + 1;
    },
  },
  {
    name: "a part over the end of its board",
    on: "yard",
    rule: "boards",
    spoil: (p) => {
      shared(p).parts[0]!.at[0] += 1400;
    },
  },
  {
    name: "a part that is not the piece's shape",
    on: "yard",
    rule: "boards",
    spoil: (p) => {
      shared(p).parts[0]!.size[0] -= 4;
    },
  },
  {
    name: "a piece cut as its mirror image",
    on: "yard",
    rule: "boards",
    spoil(p) {
      const part = p.boards.flatMap((b) => b.parts).find((one) => one.ring !== null && one.ring.length > 4)!;
      part.ring = part.ring!.map(([x, y]) => [2 * part.at[0] + part.size[0] - x, y]);
    },
  },
  {
    name: "a factory end out of the middle of a board",
    on: "yard",
    rule: "boards",
    spoil(p) {
      const part = shared(p).parts.find((one) => one.at[0] > 0)!;
      piece(p, part.piece).ends = ["factory", "factory"];
    },
  },
  {
    name: "a board of a length nobody sells",
    on: "yard",
    rule: "boards",
    spoil: (p) => {
      p.boards[0]!.length = 1700;
    },
  },
  {
    name: "a groove where the rip was",
    on: "yard",
    rule: "groove",
    spoil(p) {
      const one = p.pieces.find((q) => q.edges.includes("ripped"))!;
      one.edges = ["groove", "groove"];
    },
  },
  {
    name: "edges called ripped to save their clips",
    on: "yard",
    rule: "groove",
    spoil(p) {
      for (const one of p.pieces) one.edges = ["ripped", "ripped"];
      crowd(p, "warn", ["oneEdge"]);
    },
  },
  {
    name: "boardsAtLeast one too high",
    on: "yard",
    rule: "bound",
    spoil: (p) => {
      p.figures.boardsAtLeast++;
    },
  },
  {
    name: "duals that fill a board twice over",
    on: "yard",
    rule: "bound",
    spoil(p) {
      for (const dual of p.figures.bound.duals) dual[1] *= 3;
      p.figures.boardsAtLeast = p.boards.length;
    },
  },
  {
    name: "a bound over joints that needs more than the spans do",
    on: "free",
    rule: "bound",
    spoil(p) {
      for (const dual of p.figures.bound.duals) dual[0] += 40;
      const sum = p.figures.bound.duals.reduce((s, [mm, n]) => s + mm * n, 0);
      p.figures.boardsAtLeast = Math.min(p.boards.length, Math.ceil(sum / p.figures.bound.scale));
    },
  },
  ...(["boards", "cuts", "rips", "waste", "mass", "area", "total"] as const).map(
    (name): Spoil => ({
      name: `a false total: ${name}`,
      on: "yard",
      rule: "figures",
      spoil: (p) => {
        p.figures[name] += name === "mass" ? 0.5 : name === "area" || name === "waste" ? 5000 : 1;
      },
    }),
  ),
  {
    name: "a clip beside its seam",
    on: "yard",
    rule: "clips",
    spoil: (p) => {
      seamClip(p).at[1] += 3;
    },
  },
  {
    name: "a clip of the wrong kind",
    on: "yard",
    rule: "clips",
    spoil: (p) => {
      seamClip(p).kind = "start";
    },
  },
  {
    name: "a clip that holds a piece it does not touch",
    on: "yard",
    rule: "clips",
    spoil: (p) => {
      seamClip(p).holds.push(p.pieces[p.pieces.length - 1]!.id);
    },
  },
  {
    name: "a clip that hides what it holds",
    on: "yard",
    rule: "clips",
    spoil: (p) => {
      seamClip(p).holds.pop();
    },
  },
  {
    name: "one clip through another",
    on: "yard",
    rule: "clipsMeet",
    spoil(p) {
      const clip = seamClip(p);
      const next = p.clips.find((c) => c.seam === clip.seam && c.kind === "seam" && c.at[0] > clip.at[0])!;
      next.at[0] = clip.at[0] + 60;
    },
  },
  { name: "a joint without its clip", on: "yard", rule: "jointClip", spoil: (p) => dropClip(p, jointClip(p)) },
  {
    name: "a joint without its clip, excused though nothing bars it",
    on: "yard",
    rule: "jointClip",
    spoil(p) {
      const clip = jointClip(p);
      dropClip(p, clip);
      p.findings.push(finding("jointClip", "warn", [...clip.at]));
    },
  },
  {
    name: "a joint clip pushed from under the joint",
    on: "yard",
    rule: "jointClip",
    spoil: (p) => {
      jointClip(p).at[0] += 45;
    },
  },
  {
    name: "too few clips on an edge",
    on: "yard",
    rule: "clips",
    spoil(p) {
      const start = p.clips.filter((c) => c.kind === "start" && c.holds.length === 1);
      const only = start.filter((c) => c.holds[0] === start[0]!.holds[0]);
      for (const clip of only) dropClip(p, clip);
    },
  },
  {
    name: "the first clip too far from the end, with a finding but free room",
    on: "yard",
    rule: "clipEnd",
    spoil(p) {
      const first = p.clips.find((c) => c.kind === "start")!;
      dropClip(p, first);
      p.findings.push(finding("clipEnd", "warn", [...first.at]));
    },
  },
  {
    name: "clips too far apart",
    on: "yard",
    rule: "clipSpacing",
    spoil(p) {
      const start = p.clips.filter((c) => c.kind === "start");
      const held = new Map<string, Clip[]>();
      for (const c of start) for (const id of c.holds) held.set(id, [...(held.get(id) ?? []), c]);
      const run = [...held.values()].find((list) => list.filter((c) => c.holds.length === 1).length >= 3)!;
      dropClip(p, run.filter((c) => c.holds.length === 1)[1]!);
    },
  },
  {
    name: "an end clip missing",
    on: "yard",
    rule: "endClip",
    spoil: (p) => dropClip(p, p.clips.find((c) => c.kind === "end" && c.seam === 3)!),
  },
  {
    name: "an end clip missing, excused though nothing bars it",
    on: "yard",
    rule: "endClip",
    spoil(p) {
      const clip = p.clips.find((c) => c.kind === "end" && c.seam === 3)!;
      dropClip(p, clip);
      p.findings.push(finding("endClip", "stop", [...clip.at]));
    },
  },
  {
    name: "an end clip in the middle of its row",
    on: "yard",
    rule: "endClip",
    spoil: (p) => {
      p.clips.find((c) => c.kind === "end" && c.seam === 3)!.at[0] += 500;
    },
  },
  {
    name: "a clip drilled in a no-drill area",
    on: "yard",
    rule: "noDrill",
    spoil(p) {
      const clip = p.clips.reduce((best, c) =>
        Math.abs(c.at[0] - 1500) + Math.abs(c.at[1] - 1500) < Math.abs(best.at[0] - 1500) + Math.abs(best.at[1] - 1500)
          ? c
          : best,
      );
      clip.at[0] = 1500;
      clip.at[1] = 1500;
      p.findings.push(finding("noDrill", "stop", [1500, 1500]));
    },
  },
  {
    name: "play that lets a clip leave its joint",
    on: "yard",
    rule: "clipPlay",
    spoil: (p) => {
      jointClip(p).play = [-200, 200];
    },
  },
  {
    name: "a ripped edge said to be held by screws that are not there",
    on: "yard",
    rule: "held",
    spoil(p) {
      const one = p.pieces.find((q) => q.edges.includes("ripped"))!;
      const edge = one.edges.indexOf("ripped") as 0 | 1;
      one.heldBy[edge] = "screws";
      p.screws = p.screws.filter((s) => s.piece !== one.id);
    },
  },
  {
    name: "a ripped edge said to be held by a trim along a wall",
    on: "yard",
    rule: "held",
    spoil(p) {
      const one = p.pieces.find((q) => q.edges.includes("ripped"))!;
      const edge = one.edges.indexOf("ripped") as 0 | 1;
      one.heldBy[edge] = "trim";
      p.screws = p.screws.filter((s) => s.piece !== one.id);
    },
  },
  {
    name: "a screw too near the edge",
    on: "yard",
    rule: "held",
    spoil(p) {
      const one = plainInside(p);
      p.screws.push({ piece: one.id, edge: 0, at: [one.ring[0]![0] + 20, one.ring[0]![1] + 20] });
    },
  },
  {
    name: "an edge nothing holds and nobody names",
    on: "yard",
    rule: "oneEdge",
    spoil(p) {
      const one = p.pieces.find((q) => q.edges.includes("ripped"))!;
      one.heldBy[one.edges.indexOf("ripped")] = "none";
      p.screws = p.screws.filter((s) => s.piece !== one.id);
      p.findings = p.findings.filter((f) => f.rule !== "oneEdge");
    },
  },
  {
    name: "a piece laid twice",
    on: "yard",
    rule: "laying",
    spoil: (p) => {
      p.laying.push({ step: p.laying.length + 1, piece: p.pieces[0]!.id, clipsBefore: [], clipsAfter: [] });
    },
  },
  {
    name: "a piece never laid",
    on: "yard",
    rule: "laying",
    spoil: (p) => {
      p.laying.pop();
    },
  },
  {
    name: "a clip set after the board that covers it",
    on: "yard",
    rule: "laying",
    spoil(p) {
      const step = p.laying.find((s) => s.clipsBefore.length > 0)!;
      p.laying[p.laying.length - 1]!.clipsAfter.push(step.clipsBefore.pop()!);
    },
  },
  {
    name: "a clip never set",
    on: "yard",
    rule: "laying",
    spoil: (p) => {
      p.laying.find((s) => s.clipsBefore.length > 0)!.clipsBefore.pop();
    },
  },
  {
    name: "rows laid from the top, each captive under the next, not said",
    on: "yard",
    rule: "captive",
    spoil(p) {
      p.findings = p.findings.filter((f) => f.rule !== "captive");
      p.laying.reverse();
      p.laying.forEach((s, i) => {
        s.step = i + 1;
      });
      p.laying[0]!.clipsBefore = p.clips.map((c) => c.id);
      for (const s of p.laying.slice(1)) s.clipsBefore = [];
      for (const s of p.laying) s.clipsAfter = [];
    },
  },
  {
    name: "a board short in the order",
    on: "yard",
    rule: "takeoff",
    spoil: (p) => {
      line(p, "board-").buy--;
    },
  },
  {
    name: "a pack too many in the order",
    on: "yard",
    rule: "takeoff",
    spoil: (p) => {
      line(p, "clip-seam").buy += line(p, "clip-seam").pack;
    },
  },
  {
    name: "no spares",
    on: "yard",
    rule: "takeoff",
    spoil(p) {
      const boards = line(p, "board-");
      boards.spare = 0;
      boards.buy = Math.ceil(boards.need / boards.pack) * boards.pack;
    },
  },
  {
    name: "a need that is not what is drawn",
    on: "yard",
    rule: "takeoff",
    spoil(p) {
      const clips = line(p, "clip-end");
      clips.need -= 2;
      clips.buy -= 2;
    },
  },
  {
    name: "a trim left out of the order",
    on: "yard",
    rule: "takeoff",
    spoil: (p) => {
      p.trims = [];
    },
  },
  {
    name: "a base accepted on a grid too wide to prove it",
    on: "rough",
    rule: "verdict",
    spoil: (p) => {
      p.base!.verdict = "accept";
    },
  },
  {
    name: "a minimum zone better than its readings",
    on: "rough",
    rule: "verdict",
    spoil: (p) => {
      p.base!.zone.halfWidth *= 0.5;
    },
  },
  {
    name: "a minimum zone no points support",
    on: "rough",
    rule: "verdict",
    spoil: (p) => {
      p.base!.zone.halfWidth += 1;
    },
  },
  {
    name: "a straightedge gap smaller than the readings show",
    on: "rough",
    rule: "verdict",
    spoil: (p) => {
      p.base!.straightedge!.gap = 0.1;
    },
  },
  {
    name: "a fall that is not the base's",
    on: "rough",
    rule: "verdict",
    spoil: (p) => {
      p.base!.plane.fall += 0.3;
    },
  },
  {
    name: "an unknown membrane that stops nobody",
    on: "rough",
    rule: "verdict",
    spoil: (p) => {
      p.findings = p.findings.filter((f) => f.rule !== "membrane");
    },
  },
  {
    name: "levels left unjudged",
    on: "rough",
    rule: "verdict",
    spoil: (p) => {
      p.base = null;
    },
  },
];

/** Moves the end gap of a joint along, with the pieces' ends, lengths and the list kept true. */
function shiftAt(plan: PlanFile, j: PlanFile["joints"][number], by: number): [number, number] {
  const [left, right] = [piece(plan, j.pieces[0]), piece(plan, j.pieces[1])];
  const end = Math.max(...left.ring.map((q) => q[0]));
  const start = Math.min(...right.ring.map((q) => q[0]));
  move(
    left.ring.filter((q) => q[0] === end),
    by,
    0,
  );
  move(
    right.ring.filter((q) => q[0] === start),
    by,
    0,
  );
  left.length = Math.round((left.length + by) * 1000) / 1000;
  right.length = Math.round((right.length - by) * 1000) / 1000;
  j.u = Math.round((j.u + by) * 1000) / 1000;
  return [(end + start) / 2 + by, left.ring[0]![1]];
}

function shiftJoint(plan: PlanFile): [number, number] {
  return shiftAt(plan, plan.joints.find((j) => j.row === 5)!, 40);
}
