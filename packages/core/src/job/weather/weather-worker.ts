import { parentPort } from 'node:worker_threads';
import { makeBands, type PageBands } from './weather-bands.js';

// Milliseconds after which nobody comes any more: what was to be weathered was refused.
const patience = 60_000;

const late = setTimeout(() => parentPort?.close(), patience);
parentPort?.once('message', (bands: PageBands) => {
  clearTimeout(late);
  makeBands(bands);
});
