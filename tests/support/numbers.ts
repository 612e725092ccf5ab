import { expect } from 'vitest';

// Pictures are arrays of a million numbers, for each of which the usual comparison makes several objects. This
// one takes the same for equal: arrays of one kind, whose numbers are the same by `Object.is`.
function areSame(a: unknown, b: unknown): boolean | undefined {
  if (!isNumbers(a) || !isNumbers(b) || a.constructor !== b.constructor) return undefined;
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i++) if (!Object.is(a[i], b[i])) return false;
  return true;
}

function isNumbers(value: unknown): value is Float32Array {
  return ArrayBuffer.isView(value) && !(value instanceof DataView);
}

// What is told of comparing stays told where files share a process.
const told = Symbol.for('arrays of numbers');
if (!Reflect.has(globalThis, told)) expect.addEqualityTesters([areSame]);
Reflect.set(globalThis, told, true);
