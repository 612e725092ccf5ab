import { TextureError } from '@gaugerod/core';
import { expect, test } from 'vitest';

const built = new URL('../../../packages/core/dist/errors/texture-error.js', import.meta.url).href;

test('an error of another copy of the library is one, and any other error is none', async () => {
  const other = (await import(built)) as { readonly TextureError: typeof TextureError };
  expect(other.TextureError).not.toBe(TextureError);
  const error: unknown = new other.TextureError('no-file', 'wall.jpg does not exist');
  expect(error instanceof TextureError).toBe(true);
  expect(new TextureError('no-file', 'wall.jpg does not exist')).toBeInstanceOf(other.TextureError);
  const alike = Object.assign(new Error('x'), { name: 'TextureError', code: 'no-file' });
  for (const none of [alike, null, 'text', {}]) expect(none instanceof TextureError).toBe(false);
});
