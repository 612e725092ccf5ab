import { takeCoverage } from 'node:v8';
import { afterAll } from 'vitest';
import './golden.js';
import './numbers.js';

// Whoever runs tests may end their process without asking it what it covered.
afterAll(() => {
  if (process.env['NODE_V8_COVERAGE'] !== undefined) takeCoverage();
});
