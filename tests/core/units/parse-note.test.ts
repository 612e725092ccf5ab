import { expect, test } from 'vitest';
import { parseChoice } from '../../../packages/core/src/units/parse-choice.js';
import { parseNote } from '../../../packages/core/src/units/parse-note.js';

test('a note is taken without the blanks around it', () => {
  expect(parseNote(' \tTansy Wharf survey\n', '--credit')).toBe('Tansy Wharf survey');
  expect(parseNote(` ${'x'.repeat(1000)} `, '--credit')).toBe('x'.repeat(1000));
});

test.each(['', '  \n', 'x'.repeat(1001)])('neither nothing nor a book is a note', (text) => {
  expect(() => parseNote(text, '--credit')).toThrow(
    /^expected 1 to 1000 characters for --credit, got "/,
  );
});

test('one of a few words is meant as it stands, or all are told', () => {
  const choices = ['above', 'left', 'right'] as const;
  expect(parseChoice('left', '--light', choices)).toBe('left');
  for (const text of ['Left', ' left', 'lef', '', 'constructor'])
    expect(() => parseChoice(text, '--light', choices)).toThrow(
      `expected one of above, left, right for --light, got "${text}"`,
    );
});
