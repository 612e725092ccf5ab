import { writeBlindTest } from './blind-test.js';
import { benchBuild } from './build-speed.js';
import { calibrateConfidence } from './calibrate-confidence.js';
import { benchDress } from './dress-true.js';
import { benchEven } from './even-accuracy.js';
import { benchExtend } from './extend-growth.js';
import { benchFillSpeed } from './fill-speed.js';
import { benchHelp } from './help.js';
import { benchInspect } from './inspect-accuracy.js';
import { benchMeasure } from './measure-accuracy.js';
import { benchMeasureSpeed } from './measure-speed.js';
import { benchMend } from './mend-report.js';
import { benchMendSpeed } from './mend-speed.js';
import { benchPrint } from './print-true.js';
import { benchRelief } from './relief-speed.js';
import { benchSeamPeers } from './seam-peers.js';
import { benchSeams } from './seam-report.js';
import { benchSheet } from './sheet-places.js';
import { benchSlim } from './slim-same.js';
import { benchWeather } from './weather-report.js';
import { benchWholeJob } from './whole-job.js';

// One line for each benchmark; the name is what `npm run bench NAME` takes, and may take more words.
const benchmarks: Readonly<Record<string, (words: readonly string[]) => Promise<void> | void>> = {
  build: benchBuild,
  calibrate: calibrateConfidence,
  dress: benchDress,
  even: benchEven,
  extend: benchExtend,
  'fill-speed': benchFillSpeed,
  help: benchHelp,
  inspect: benchInspect,
  measure: benchMeasure,
  'measure-speed': benchMeasureSpeed,
  mend: benchMend,
  'mend-blind': writeBlindTest,
  'mend-speed': benchMendSpeed,
  print: benchPrint,
  relief: benchRelief,
  'seam-peers': benchSeamPeers,
  seams: benchSeams,
  sheet: benchSheet,
  slim: benchSlim,
  weather: benchWeather,
  'whole-job': benchWholeJob,
};

const [name, ...words] = process.argv.slice(2);
const chosen = name === undefined ? Object.keys(benchmarks) : [name];
for (const each of chosen) {
  const run = Object.hasOwn(benchmarks, each) ? benchmarks[each] : undefined;
  if (run === undefined) {
    console.error(`no benchmark named ${each}; there are: ${Object.keys(benchmarks).join(', ')}`);
    process.exitCode = 2;
    break;
  }
  console.log(`# ${each}`);
  await run(words);
}
