import { fileURLToPath } from 'node:url';
import { alternate, printTimings } from './alternate.js';

const cli = fileURLToPath(new URL('../../../packages/cli/bin/gaugerod.js', import.meta.url));

/** What `gaugerod --help` costs above a Node that does nothing: at most 25 ms is wanted. */
export function benchHelp(): void {
  const timings = alternate(
    [
      { name: 'gaugerod --help', argv: [cli, '--help'] },
      { name: 'node -e 0', argv: ['-e', '0'] },
    ],
    21,
  );
  printTimings(timings);
  const [help, bare] = timings;
  if (help !== undefined && bare !== undefined) {
    console.log(`above bare node: ${(help.medianMs - bare.medianMs).toFixed(1)} ms`);
  }
}
