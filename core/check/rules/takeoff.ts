/** Rule 9: the order is what is drawn, the spares the job asks for, whole packs, and less than a pack over. */
import { blame, type JudgedPiece, type Scene } from "../scene.ts";

export function judgeTakeoff(scene: Scene): void {
  const { job, plan } = scene;
  const seen = new Map<string, (typeof plan.takeoff)[number]>();
  // What lies in the fitter's yard is not bought: so many of each length, within what can be had of it.
  const yard = new Map(
    job.board.lengths.map((l) => [`board-${l.length}`, Math.min(l.owned ?? 0, l.stock ?? l.owned ?? 0)]),
  );
  for (const line of plan.takeoff) {
    const data = { item: line.item };
    if (seen.has(line.item)) blame(scene, "idRepeated", null, line.item, null, { list: "takeoff", id: line.item });
    seen.set(line.item, line);
    const whole = line.pack > 0 && Math.abs(line.buy / line.pack - Math.round(line.buy / line.pack)) < 1e-9;
    const owned = Math.min(yard.get(line.item) ?? 0, line.need + line.spare);
    if ((line.owned ?? 0) !== owned) blame(scene, "takeoffOwned", null, line.owned ?? 0, owned, data);
    const wanted = line.need + line.spare - owned;
    if (
      !whole ||
      !(line.need >= 0) ||
      !(line.spare >= 0) ||
      line.buy < wanted - 1e-9 ||
      line.buy >= wanted + line.pack - 1e-9
    )
      blame(scene, "takeoffPack", null, line.buy, wanted, { ...data, pack: line.pack });
  }
  const need = (item: string, count: number): void => {
    const line = seen.get(item);
    if (!line && count > 0) blame(scene, "takeoffMissing", null, null, count, { item });
    else if (line && line.need !== count) blame(scene, "takeoffNeed", null, line.need, count, { item });
  };
  const byLength = new Map<number, number>();
  for (const board of plan.boards) byLength.set(board.length, (byLength.get(board.length) ?? 0) + 1);
  for (const { length, price, pack, stock } of job.board.lengths) {
    need(`board-${length}`, byLength.get(length) ?? 0);
    const line = seen.get(`board-${length}`);
    if (line && line.price !== price) blame(scene, "takeoffPrice", null, line.price, price, { item: line.item });
    if (line && line.pack !== (stock === null ? pack : 1))
      blame(scene, "takeoffPack", null, line.pack, pack, { item: line.item, pack });
  }
  for (const item of seen.keys())
    if (item.startsWith("board-") && !byLength.has(Number(item.slice(6))))
      blame(scene, "takeoffNeed", null, seen.get(item)!.need, 0, { item });
  for (const kind of ["start", "seam", "last", "end"] as const)
    need(`clip-${kind}`, plan.clips.filter((c) => c.kind === kind).length);
  const fixings = [...seen.values()].filter((l) => /^fixing(-|$)/.test(l.item)).reduce((sum, l) => sum + l.need, 0);
  const holes = plan.clips.length * job.clips.fixing.holes.length;
  if (fixings !== holes) blame(scene, "takeoffNeed", null, fixings, holes, { item: "fixing" });
  need("screw", plan.screws.length);
  need("bit", Math.ceil(holes / 100));
  const spacing = job.trim?.screwSpacing ?? 0;
  const trimScrews = plan.trims
    .flatMap((trim) => trim.parts)
    .map((part) => Math.max(2, Math.ceil(part.length / spacing - 1e-9) + 1));
  need("trim-screw", job.trim ? trimScrews.reduce((sum, n) => sum + n, 0) : 0);
  judgeSpares(scene, seen);
  judgeTrims(scene, seen);
}

function judgeSpares(scene: Scene, lines: Map<string, { item: string; need: number; spare: number }>): void {
  const { job, plan } = scene;
  const rounded = (count: number): number => Math.ceil(count - 1e-9);
  // An edge a hundredth either side of a millimetre may count as slanting or not: the file rounds it.
  const wanted = [990, 1010].map((least) => {
    const slanting = plan.boards.filter((b) => b.parts.some((p) => slants(scene.pieceOf.get(p.piece), least))).length;
    const share = (plan.boards.length - slanting) * job.spares.boards + slanting * job.spares.boardsSlanting;
    return plan.boards.length === 0 ? 0 : Math.max(job.spares.boardsAtLeast, rounded(share));
  });
  const [boards, fewest] = [Math.max(...wanted), Math.min(...wanted)];
  let spare = 0;
  for (const line of lines.values()) if (line.item.startsWith("board-")) spare += line.spare;
  const short = plan.findings.some((f) => f.code === "spareStock" && f.level !== "note");
  if ((spare < fewest || spare > boards) && !(short && spare < boards))
    blame(scene, "takeoffSpare", null, spare, boards, { item: "board" });
  for (const line of lines.values()) {
    const part = line.item.startsWith("clip-")
      ? job.spares.clips
      : /^(fixing|screw|trim-screw)(-|$)/.test(line.item)
        ? job.spares.fixings
        : null;
    if (part !== null && line.spare !== rounded(line.need * part))
      blame(scene, "takeoffSpare", null, line.spare, rounded(line.need * part), { item: line.item });
  }
}

/** An edge that runs more than `least` um both along and across the rows. */
function slants(piece: JudgedPiece | undefined, least: number): boolean {
  if (!piece || piece.plain) return false;
  return piece.paths.some((path) =>
    path.some((p, i) => {
      const q = path[(i + 1) % path.length]!;
      return Math.abs(p.x - q.x) > least && Math.abs(p.y - q.y) > least;
    }),
  );
}

/** Every open side has its trim, as long as the side but for the mitres, out of lengths that are bought. */
function judgeTrims(scene: Scene, lines: Map<string, { need: number }>): void {
  const { job, plan, survey } = scene;
  let parts = 0;
  for (const side of plan.trims)
    for (const part of side.parts) {
      parts += part.length;
      if (job.trim && part.length > job.trim.length + 0.01)
        blame(scene, "trimMissing", null, part.length, job.trim.length, { side: side.side });
    }
  if (!job.trim) {
    if (plan.trims.length > 0) blame(scene, "trimMissing", null, plan.trims.length, 0, { side: plan.trims[0]!.side });
    return;
  }
  const bought = (lines.get(`trim-${job.trim.length}`)?.need ?? 0) * job.trim.length;
  if (bought < parts - 0.01 * plan.trims.length)
    blame(scene, "takeoffNeed", null, bought, Math.round(parts), { item: `trim-${job.trim.length}` });
  const done = new Set(plan.trims.filter((t) => t.parts.length > 0).map((t) => t.side));
  survey.sides.forEach((side, i) => {
    if (side.kind === "open" && !done.has(side.source) && !done.has(i))
      blame(scene, "trimMissing", null, 0, null, { side: side.source });
  });
}
