import { workerData } from 'node:worker_threads';
import { makeBands, type PlaceBands } from './weather-bands.js';

makeBands(workerData as PlaceBands);
