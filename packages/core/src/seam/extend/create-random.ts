/** Gives the next number, 0 up to 1. */
export type Random = () => number;

/**
 * Make a source of random numbers that gives the same ones for the same seed, everywhere.
 *
 * @param seed - A whole number.
 * @returns Numbers of 32 bits, 0 up to 1.
 * @see C. Doty-Humphrey, PractRand: sfc32, a small fast counting generator
 */
export function createRandom(seed: number): Random {
  let a = seed | 0;
  let b = Math.floor(seed / 2 ** 32) | 0;
  let c = 0x9e3779b9 | 0;
  let count = 1;
  const next = (): number => {
    const sum = (a + b + count) | 0;
    count = (count + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = (((c << 21) | (c >>> 11)) + sum) | 0;
    return (sum >>> 0) / 2 ** 32;
  };
  // Until the seed has reached every bit.
  for (let i = 0; i < 15; i++) next();
  return next;
}
