// gAMA of sRGB: 1 / 2.2 in hundred-thousandths; what differs by less is not seen.
const usual = 45_455;
const near = 500;

const mostChunks = 1000;

/**
 * Find out whether a PNG states a gamma, or colours by number, that some programs heed and some do
 * not.
 *
 * @param bytes - The file.
 * @returns What it states, or null where that is nothing or sRGB's own.
 * @see PNG Specification, third edition, 11.3.2: colour space information
 */
export function readGamma(bytes: Buffer): string | null {
  for (let at = 8, chunks = 0; at + 12 <= bytes.length && chunks < mostChunks; chunks++) {
    const kind = bytes.toString('latin1', at + 4, at + 8);
    if (kind === 'IDAT' || kind === 'sRGB' || kind === 'iCCP') return null;
    if (kind === 'cICP') return 'its own';
    if (kind === 'gAMA' && at + 16 <= bytes.length) {
      const gamma = bytes.readUInt32BE(at + 8);
      return Math.abs(gamma - usual) <= near ? null : String(gamma / 100_000);
    }
    at += 12 + bytes.readUInt32BE(at);
  }
  return null;
}
