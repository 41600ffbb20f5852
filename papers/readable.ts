/** Text reads from below or from the right: what would stand on its head is turned round about its point. */
export function readableTurn(deg: number): { deg: number; turned: boolean } {
  const turn = ((deg % 360) + 360) % 360;
  return turn > 91 && turn <= 271 ? { deg: (turn + 180) % 360, turned: true } : { deg: turn, turned: false };
}
