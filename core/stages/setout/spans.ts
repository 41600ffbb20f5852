import { TOLERANCE } from "../../base/tolerances.ts";
import { toMm, toUm } from "../../base/units.ts";
import type { Trapezoid } from "../../geometry/chords.ts";
import type { Region, Ring } from "../../geometry/frame.ts";
import { regionsOf } from "../../geometry/region.ts";
import { boxOf, distanceToRing, isRectangle, rectangle, regionArea } from "../../geometry/ring.ts";
import type { Job } from "../../job/job.ts";
import { areaOf, type BareFinding, NOTHING_UM2, pointsAlong, pointsIn } from "./cover.ts";
import { freePlaces, type Interval, meetMusts } from "./musts.ts";
import type { Span } from "./record.ts";
import { NEEDLE_UM } from "./rows.ts";
import { fingersOf, type Grown, isBridge, type Stretch, swapRing, thinStretches, websOf, wedgesOf } from "./webs.ts";

/** A tip thinner than a needle over more than this length is cut off square, um. */
export const TIP_UM = 75_000;
/** What is left out is taken out with this to spare, um, so that no film of rounding stays (well within a gap's tolerance). */
const SPARE_UM = 50;
const OVER_UM = toUm(TOLERANCE.ripFreeMm);
/** Rounds of leaving something out before a span is taken as it is. */
const ROUNDS = 10;

export interface SpanContext {
  job: Job;
  sideGapUm: number;
  grown: readonly Grown[];
  keepClear: readonly { name: string; ring: Ring }[];
  findings: BareFinding[];
}

/**
 * The spans of one row from the parts of field and strip: needles left out, long thin tips cut off square, webs beside
 * cut-outs given a place for a joint or left out; everything left out is named. Whole rectangles with no cut-out near
 * pass straight through.
 */
export function spansOf(row: number, low: number, high: number, parts: readonly Region[], ctx: SpanContext): Span[] {
  const spans: Span[] = [];
  for (const part of parts) addSpan(row, low, high, part, ctx, spans, 0, null);
  return spans.sort((a, b) => a.u0Um - b.u0Um || a.v0Um - b.v0Um);
}

function addSpan(
  row: number,
  low: number,
  high: number,
  region: Region,
  ctx: SpanContext,
  out: Span[],
  round: number,
  cutFrom: { u0Um: number; u1Um: number } | null,
): void {
  const box = boxOf(region.outer);
  if (box.v1 - box.v0 < NEEDLE_UM || box.u1 - box.u0 < NEEDLE_UM) {
    leaveOut(row, region, ctx);
    return;
  }
  const plain = region.holes.length === 0 && isRectangle(region.outer);
  const span: Span = {
    row,
    region,
    u0Um: box.u0,
    u1Um: box.u1,
    v0Um: box.v0,
    v1Um: box.v1,
    plain,
    mustJoint: [],
    noJoint: [],
  };
  if (cutFrom !== null) span.cutFrom = cutFrom;
  const nearby = ctx.grown.filter(
    (g) => g.box.u0 < box.u1 + 2 && g.box.u1 > box.u0 - 2 && g.box.v0 < high && g.box.v1 > low,
  );
  if (round < ROUNDS && (!plain || nearby.length > 0)) {
    const removed = plain ? [] : trim(span, low, high, nearby, ctx);
    if (removed.length > 0) {
      const rest = regionsOf([region.outer, ...region.holes], removed);
      const whole = cutFrom ?? { u0Um: box.u0, u1Um: box.u1 };
      for (const part of rest) addSpan(row, low, high, part, ctx, out, round + 1, whole);
      return;
    }
  }
  for (const area of ctx.keepClear) {
    const b = boxOf(area.ring);
    if (b.v0 < box.v1 && b.v1 > box.v0 && b.u0 < box.u1 && b.u1 > box.u0) span.noJoint.push({ from: b.u0, to: b.u1 });
  }
  span.noJoint.sort((a, b) => a.from - b.from || a.to - b.to);
  out.push(span);
}

/** Notes the span's must- and no-joint places; returns what has to be left out (then the span is cut and looked at anew). */
function trim(span: Span, low: number, high: number, nearby: readonly Grown[], ctx: SpanContext): Ring[] {
  const { job } = ctx;
  const removed: Ring[] = [];
  for (const thin of thinStretches(span.region, NEEDLE_UM, TIP_UM)) {
    nameStretch(span.row, "tipBlunted", thin, ctx);
    removed.push(...thin.parts.map(patch));
  }
  // One kind of thing at a time: the next round looks at what is left, so nothing is named twice.
  if (removed.length > 0 || nearby.length === 0) return removed;
  const minRip = toUm(job.bond.minRip);
  const end = toUm(job.gaps.end);
  for (const g of nearby) addForbidden(span, g, minRip, end);
  const musts: { interval: Interval; leave: Stretch | null }[] = [];
  const fingers = fingersOf(swapRegion(span.region), nearby, minRip);
  for (const web of websOf(span.region, nearby, minRip)) {
    // Beside a finger that cannot stay, a bridge would only be a longer finger.
    if (!isBridge(web) || fingers.some((f) => f.beside === web.beside || f.beside?.index === web.beside?.index)) {
      nameStretch(span.row, "webLeftOut", web, ctx);
      removed.push(...patches(web));
      continue;
    }
    musts.push({ interval: { from: web.from, to: web.to, why: "web", name: web.beside?.name ?? "" }, leave: web });
  }
  // A board that passes an undercut corner on both sides could not be moved in: a joint there, or the corner left out.
  for (const wedge of wedgesOf(span.region, nearby, minRip)) {
    const { box, name } = wedge.beside!;
    if (span.u0Um > box.u0 - OVER_UM || span.u1Um < box.u1 + OVER_UM) continue;
    if (wedge.greatest <= OVER_UM) removed.push(...wedge.parts.map(patch));
    else musts.push({ interval: { from: box.u0, to: box.u1, why: "web", name }, leave: wedge });
  }
  if (removed.length > 0) return removed;
  for (const finger of fingers) {
    nameStretch(span.row, "webLeftOut", finger, ctx, true);
    removed.push(...finger.parts.map((t) => swapRing(patch(t))));
  }
  if (removed.length > 0) return removed;
  for (const hole of span.region.holes) {
    const standing = nearby.find((g) => g.height !== "flush" && touchesHole(hole, g));
    if (standing === undefined) continue;
    const b = boxOf(hole);
    musts.push({ interval: { from: b.u0, to: b.u1, why: "enclosed", name: standing.name }, leave: null });
  }
  const ends = { u0: span.u0Um, u1: span.u1Um, minPiece: toUm(job.bond.minPiece), end };
  const unmet = meetMusts(
    musts.map((m) => m.interval),
    freePlaces(span.u0Um, span.u1Um, span.noJoint),
    ends,
  );
  musts.forEach((must, i) => {
    if (!unmet.has(i)) {
      span.mustJoint.push(must.interval);
      return;
    }
    const leave = must.leave ?? narrowSide(span, must.interval, nearby, high - low);
    if (leave === null) return;
    nameStretch(span.row, "webLeftOut", leave, ctx);
    removed.push(...patches(leave));
  });
  span.mustJoint.sort((a, b) => a.from - b.from || a.to - b.to);
  return removed;
}

function touchesHole(hole: Ring, g: Grown): boolean {
  return hole.some(([u, v]) => distanceToRing(g.ring, u, v) <= 3);
}

/** Beside a cut-out a joint would leave a finger thinner than minRip between itself and the cut-out. */
function addForbidden(span: Span, g: Grown, minRip: number, end: number): void {
  if (g.box.u0 > span.u0Um) span.noJoint.push({ from: g.box.u0 - minRip - end / 2, to: g.box.u0 - end / 2 });
  if (g.box.u1 < span.u1Um) span.noJoint.push({ from: g.box.u1 + end / 2, to: g.box.u1 + end / 2 + minRip });
}

/** The narrower of the two bridges past an enclosed cut-out, to be left out so that the board can go round it. */
function narrowSide(span: Span, place: Interval, nearby: readonly Grown[], width: number): Stretch | null {
  const both = websOf(span.region, nearby, width + 1).filter((s) => s.from <= place.to && s.to >= place.from);
  let best: Stretch | null = null;
  for (const s of both) if (best === null || s.least < best.least) best = s;
  return best;
}

function leaveOut(row: number, region: Region, ctx: SpanContext): void {
  const box = boxOf(region.outer);
  const areaUm2 = regionArea(region);
  if (areaUm2 < NOTHING_UM2) return;
  if (box.v1 - box.v0 + ctx.sideGapUm <= OVER_UM || box.u1 - box.u0 <= OVER_UM) return;
  const width = Math.min(box.v1 - box.v0, box.u1 - box.u0);
  for (const uv of pointsIn(region)) {
    ctx.findings.push({
      code: "needleLeftOut",
      rule: "cover",
      level: "warn",
      uv,
      found: toMm(width),
      limit: toMm(NEEDLE_UM),
      releasedBy: null,
      data: {
        row,
        lengthMm: toMm(Math.max(box.v1 - box.v0, box.u1 - box.u0)),
        widthMm: toMm(width),
        areaMm2: areaUm2 / 1e6,
      },
    });
  }
}

/** Names what is left out of a stretch; `swapped` where it was measured along the row. */
function nameStretch(
  row: number,
  code: "tipBlunted" | "webLeftOut",
  s: Stretch,
  ctx: SpanContext,
  swapped = false,
): void {
  const areaUm2 = areaOf(s.parts);
  if (areaUm2 < NOTHING_UM2) return;
  const limit = code === "tipBlunted" ? toMm(NEEDLE_UM) : ctx.job.bond.minRip;
  const lengthMm = toMm(s.to - s.from);
  const widthMm = toMm(Math.round(s.greatest));
  const sorted = [...s.parts].sort((a, b) => a.u0 - b.u0);
  for (const [a, b] of pointsAlong(sorted)) {
    const uv: [number, number] = swapped ? [b, a] : [a, b];
    ctx.findings.push({
      code,
      rule: "cover",
      level: "warn",
      uv,
      found: widthMm,
      limit,
      releasedBy: null,
      data:
        code === "tipBlunted"
          ? { row, lengthMm, widthMm, areaMm2: areaUm2 / 1e6 }
          : { row, name: s.beside?.name ?? "", lengthMm, widthMm, areaMm2: areaUm2 / 1e6 },
    });
  }
}

/** A web as rings to take out; a very short one is made a needle long, so that nobody takes the slit for a joint. */
function patches(web: Stretch): Ring[] {
  const out = web.parts.map(patch);
  if (web.to - web.from < NEEDLE_UM) {
    const middle = Math.round((web.from + web.to) / 2);
    // As high as the web is anywhere: under a corner of the cut-out, short ends a web apart would face each other.
    const low = Math.floor(Math.min(...web.parts.map((t) => Math.min(t.low0, t.low1))));
    const high = Math.ceil(Math.max(...web.parts.map((t) => Math.max(t.high0, t.high1))));
    out.push(rectangle(middle - NEEDLE_UM / 2, low - SPARE_UM, middle + NEEDLE_UM / 2, high + SPARE_UM));
  }
  return out;
}

/** What is left out, as a counter-clockwise ring a little wider than the trapezoid. */
function patch(t: Trapezoid): Ring {
  const down = (v: number) => Math.floor(v) - SPARE_UM;
  const up = (v: number) => Math.ceil(v) + SPARE_UM;
  return [
    [t.u0, down(t.low0)],
    [t.u1, down(t.low1)],
    [t.u1, up(t.high1)],
    [t.u0, up(t.high0)],
  ];
}

function swapRegion(region: Region): Region {
  return { outer: swapRing(region.outer), holes: region.holes.map(swapRing) };
}
