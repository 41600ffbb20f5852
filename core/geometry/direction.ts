/**
 * Sine, cosine and arc tangent with the same bits on every engine: platform versions differ in the last place.
 * Only + - * / and Math.sqrt are used. Accuracy: within 1e-15 of the true value (direction.test.ts prints it).
 * Method: reduction to the first octant in exact degrees, then the Taylor series (|x| <= pi/4, 10 terms).
 */
const RADIANS_PER_DEGREE = 0.017453292519943295;

function sinSmall(x: number): number {
  const x2 = x * x;
  let term = x;
  let sum = x;
  for (let k = 1; k <= 10; k++) {
    term *= -x2 / (2 * k * (2 * k + 1));
    sum += term;
  }
  return sum;
}

function cosSmall(x: number): number {
  const x2 = x * x;
  let term = 1;
  let sum = 1;
  for (let k = 1; k <= 10; k++) {
    term *= -x2 / ((2 * k - 1) * (2 * k));
    sum += term;
  }
  return sum;
}

/** Unit vector [cos, sin] of an angle in degrees; exact at multiples of 90. */
export function directionOf(deg: number): [cos: number, sin: number] {
  let turn = deg % 360;
  if (turn < 0) turn += 360;
  const quarter = Math.floor((turn + 45) / 90) % 4;
  const rest = turn - (quarter === 0 && turn > 180 ? 360 : quarter * 90);
  const x = rest * RADIANS_PER_DEGREE;
  const c = rest === 0 ? 1 : cosSmall(x);
  const s = rest === 0 ? 0 : sinSmall(x);
  if (quarter === 0) return [c, s];
  if (quarter === 1) return [-s + 0, c];
  if (quarter === 2) return [-c, -s + 0];
  return [s, -c + 0];
}

/** atan(x) in radians for 0 <= x <= 1: two halvings, then the series. */
function atanUnit(x: number): number {
  const once = x / (1 + Math.sqrt(1 + x * x));
  const twice = once / (1 + Math.sqrt(1 + once * once));
  const t2 = twice * twice;
  let power = twice;
  let sum = twice;
  for (let k = 1; k <= 14; k++) {
    power *= -t2;
    sum += power / (2 * k + 1);
  }
  return 4 * sum;
}

/** Direction of a vector in degrees, 0 <= deg < 360; 0 for the null vector. */
export function degreesOf(x: number, y: number): number {
  if (x === 0 && y === 0) return 0;
  const ax = x < 0 ? -x : x;
  const ay = y < 0 ? -y : y;
  let deg = ay <= ax ? atanUnit(ay / ax) / RADIANS_PER_DEGREE : 90 - atanUnit(ax / ay) / RADIANS_PER_DEGREE;
  if (x < 0) deg = 180 - deg;
  if (y < 0) deg = 360 - deg;
  return deg >= 360 ? 0 : deg + 0;
}
