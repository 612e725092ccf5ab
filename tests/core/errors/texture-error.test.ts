import { TextureError } from '@gaugerod/core';
import { expect, test } from 'vitest';

// Asked for by another name, a module is loaded again.
const copy = new URL('../../../packages/core/dist/errors/texture-error.js?copy', import.meta.url);

test('an error of another copy of the library is one, and any other error is none', async () => {
  const other = (await import(/* @vite-ignore */ copy.href)) as {
    readonly TextureError: typeof TextureError;
  };
  expect(other.TextureError).not.toBe(TextureError);
  const error: unknown = new other.TextureError('no-file', 'wall.jpg does not exist');
  expect(error instanceof TextureError).toBe(true);
  expect(new TextureError('no-file', 'wall.jpg does not exist')).toBeInstanceOf(other.TextureError);
  const alike = Object.assign(new Error('x'), { name: 'TextureError', code: 'no-file' });
  for (const none of [alike, null, 'text', {}]) expect(none instanceof TextureError).toBe(false);
});
