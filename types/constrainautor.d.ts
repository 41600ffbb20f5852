/** What we use of the package, whose own types are CommonJS-only sources that a strict project cannot compile. */
export default class Constrainautor {
  constructor(triangulation: { coords: ArrayLike<number>; triangles: Uint32Array; halfedges: Int32Array });
  /** Forces the edge between two points in; throws where it passes through a point or crosses another. */
  constrainOne(from: number, to: number): number;
}
