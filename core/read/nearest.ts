/** The nearest right name to a wrong one, or null where none is near: at most a third of its letters may differ (two at least). */
export function nearest(wrong: string, names: readonly string[]): string | null {
  if (wrong.length > 60) return null;
  const plain = fold(wrong);
  let best: string | null = null;
  let bestDistance = Math.max(2, Math.floor(wrong.length / 3)) + 1;
  for (const name of names) {
    if (Math.abs(name.length - wrong.length) >= bestDistance && fold(name) !== plain) continue;
    const distance = fold(name) === plain ? 0.5 : editDistance(plain, fold(name));
    // a name of two or three letters is not "near" when nothing of it is left
    if (distance < bestDistance && distance < name.length) {
      best = name;
      bestDistance = distance;
    }
  }
  return best;
}

/** Upper case, hyphens and underscores are not what a reader stumbles over. */
function fold(name: string): string {
  return name.toLowerCase().replace(/[-_ ]/g, "");
}

/** Optimal string alignment distance (Damerau 1964, restricted): insert, delete, replace, swap neighbours. O(a b). */
export function editDistance(a: string, b: string): number {
  let before: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1];
      let d = Math.min(last[j]! + 1, row[j - 1]! + 1, last[j - 1]! + (same ? 0 : 1));
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) d = Math.min(d, before[j - 2]! + 1);
      row.push(d);
    }
    before = last;
    last = row;
  }
  return last[b.length]!;
}
