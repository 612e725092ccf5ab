import { workerData } from 'node:worker_threads';
import { makeBands, type PageBands } from './weather-bands.js';

makeBands(workerData as PageBands);
