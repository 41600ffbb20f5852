interface Edges {
  sides: readonly { kind: string }[];
  cutouts: readonly { height: string }[];
}

/**
 * Whether water leaves over a rim edge (label as in `BaseMesh.rim`): over open and outlet sides, and into cut-outs under
 * a removable lid, which are taken for gullies. Walls, doors, kerbs, pool copings and all other cut-outs dam.
 */
export function drainsOver(site: Edges, rim: number): boolean {
  if (rim >= 0) return site.sides[rim]?.kind === "open" || site.sides[rim]?.kind === "outlet";
  return rim <= -2 && site.cutouts[-2 - rim]?.height === "removable";
}
