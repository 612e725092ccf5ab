/**
 * Make a case smaller for as long as it still fails.
 *
 * @param bytes - What fails.
 * @param fails - Whether a smaller one does, too.
 * @param seconds - How long that may take.
 * @returns The smallest that was found.
 */
export async function shrink(
  bytes: Buffer,
  fails: (smaller: Buffer) => Promise<boolean>,
  seconds: number,
): Promise<Buffer> {
  const end = performance.now() + 1000 * seconds;
  let least = bytes;
  for (let length = bytes.length >> 1; length >= 1; length >>= 1) {
    for (let at = 0; at < least.length;) {
      if (performance.now() > end) return least;
      const smaller = Buffer.concat([least.subarray(0, at), least.subarray(at + length)]);
      if (await fails(smaller)) least = smaller;
      else at += length;
    }
  }
  return least;
}
