/**
 * The judge's own turning of the site into rows. Method: the angle is reduced to at most 45 degrees, divided by 1024,
 * taken by a short series, and brought back by ten doublings (cos 2a, sin 2a). Accuracy about 1e-13, which is a
 * millionth of a millimetre over a kilometre. Multiples of 90 degrees are exact.
 */
export interface Turn {
  ox: number;
  oy: number;
  cos: number;
  sin: number;
}

/** The row frame of a plan: origin mm, angle in degrees. */
export function turnOf(origin: readonly [number, number], angleDeg: number): Turn {
  const [cos, sin] = unitOf(angleDeg);
  return { ox: origin[0], oy: origin[1], cos, sin };
}

/** Site mm to row frame, micrometres, not rounded. */
export function intoRows(turn: Turn, x: number, y: number): [u: number, v: number] {
  const dx = x - turn.ox;
  const dy = y - turn.oy;
  return [(turn.cos * dx + turn.sin * dy) * 1000, (turn.cos * dy - turn.sin * dx) * 1000];
}

/** Row frame micrometres to site mm, for saying where. */
export function ontoSite(turn: Turn, u: number, v: number): [x: number, y: number] {
  const x = turn.ox + (turn.cos * u - turn.sin * v) / 1000;
  const y = turn.oy + (turn.sin * u + turn.cos * v) / 1000;
  return [Math.round(x * 1000) / 1000 + 0, Math.round(y * 1000) / 1000 + 0];
}

/** [cos, sin] of degrees. */
export function unitOf(deg: number): [cos: number, sin: number] {
  const quarters = Math.round(deg / 90);
  const rest = deg - quarters * 90;
  let c = 1;
  let s = 0;
  if (rest !== 0) {
    const a = (rest * Math.PI) / 180 / 1024;
    const a2 = a * a;
    s = a * (1 - (a2 / 6) * (1 - a2 / 20));
    // cos a - 1 doubles without the loss that cos a itself would suffer.
    let less = (-a2 / 2) * (1 - (a2 / 12) * (1 - a2 / 30));
    for (let i = 0; i < 10; i++) {
      s = 2 * s * (1 + less);
      less = 2 * less * (2 + less);
    }
    c = 1 + less;
  }
  const turn = ((quarters % 4) + 4) % 4;
  if (turn === 0) return [c, s];
  if (turn === 1) return [-s + 0, c];
  if (turn === 2) return [-c + 0, -s + 0];
  return [s, -c + 0];
}
