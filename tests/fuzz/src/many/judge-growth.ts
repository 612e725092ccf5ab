/** What a process held when so many pictures were done. */
export interface Mark {
  /** Pictures. */
  readonly done: number;
  /** Bytes of its memory in all. */
  readonly resident: number;
  /** Bytes that objects and arrays take, once what nobody needs is collected. */
  readonly held: number;
  /** Files that are open. */
  readonly open: number;
}

// Bytes: of 1,500 pictures, which lie between the halves of 4,000, 700 each; the smallest of them takes 20,000.
const mostHeld = 2 ** 20;
// What is given back to the system, and when, is the allocator's.
const mostResident = 2 ** 23;

/**
 * Tell whether a process grows with what it has done: its first quarter fills what stays, and of the rest the later
 * half is held against the earlier.
 *
 * @param marks - In order, as far apart as one another.
 * @returns What was seen, in a line, and what should not be.
 */
export function judgeGrowth(marks: readonly Mark[]): {
  readonly told: string;
  readonly faults: readonly string[];
} {
  const settled = marks.slice(Math.floor(marks.length / 4));
  const half = settled.length >> 1;
  const [earlier, later] = [settled.slice(0, half), settled.slice(-half)];
  const [first, last] = [earlier[0], later.at(-1)];
  if (first === undefined || last === undefined) return { told: 'too few to tell', faults: [] };
  // Between the middles of both lies half of what was done since.
  const between = (last.done - first.done) / 2;
  const grown = (of: (mark: Mark) => number): number =>
    middle(later.map(of)) - middle(earlier.map(of));
  const [held, resident] = [grown((mark) => mark.held), grown((mark) => mark.resident)];
  const each = (bytes: number): string => (bytes / between).toFixed(0);
  const told = `since ${first.done}: ${each(held)} bytes a picture stay in use, ${each(resident)} in the process`;
  const faults = [
    ...(held > mostHeld ? ['objects are kept'] : []),
    ...(resident > mostResident ? ['memory grows with the number of pictures'] : []),
    ...(last.open > first.open ? ['files stay open'] : []),
  ];
  return { told, faults };
}

function middle(values: readonly number[]): number {
  return values.toSorted((a, b) => a - b)[values.length >> 1] ?? 0;
}
