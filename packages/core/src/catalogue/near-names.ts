/**
 * Find the names a slip of the finger away.
 *
 * @param typed - What was typed.
 * @param names - What there is.
 * @returns Up to three of them, nearest first; none where nothing is near.
 */
export function nearNames(typed: string, names: Iterable<string>): readonly string[] {
  const wanted = plain(typed);
  if (wanted === '') return [];
  const near: { name: string; distance: number }[] = [];
  for (const name of new Set(names)) {
    const candidate = plain(name);
    const within = wanted.length > 2 && candidate.includes(wanted);
    const distance = within ? 1 : editDistance(wanted, candidate);
    if (distance <= Math.max(1, Math.floor(wanted.length / 4))) near.push({ name, distance });
  }
  near.sort((a, b) => a.distance - b.distance);
  return near.slice(0, 3).map(({ name }) => name);
}

function plain(text: string): string {
  return text
    .slice(0, 40)
    .toLowerCase()
    .replace(/[^a-z0-9]/g, '');
}

// Levenshtein's, and two letters that changed places count as one slip; one row at a time: both words are a
// few dozen letters at most.
function editDistance(a: string, b: string): number {
  let before: number[] = [];
  let above = Array.from({ length: b.length + 1 }, (_, index) => index);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const change = above[j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1);
      const swapped = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
      const swap = swapped ? before[j - 2]! + 1 : Infinity;
      row.push(Math.min(change, above[j]! + 1, row[j - 1]! + 1, swap));
    }
    before = above;
    above = row;
  }
  return above[b.length]!;
}
