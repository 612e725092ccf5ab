#!/usr/bin/env node
// Committed rather than built, so that installing a clone finds the command before its first build.
import { statSync } from 'node:fs';

const timeOf = (path) =>
  statSync(new URL(path, import.meta.url), { throwIfNoEntry: false })?.mtimeMs ?? 0;

// A few files instead of hundreds; but not in a clone in which `tsc -b` alone has built since.
const built = Math.max(timeOf('../dist/.tsbuildinfo'), timeOf('../../core/dist/.tsbuildinfo'));
if (timeOf('../dist/bundle/main.js') > built) await import('../dist/bundle/main.js');
else await import('../dist/main.js');
