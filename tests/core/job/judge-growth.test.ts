import { expect, test } from 'vitest';
import { judgeGrowth, type Mark } from '../../fuzz/src/many/judge-growth.js';

const mebibyte = 2 ** 20;
// Forty marks, a hundred pictures apart; what a process holds in use, and in all, by hand.
const marks = (held: (step: number) => number, more: Partial<Mark> = {}): Mark[] =>
  Array.from({ length: 40 }, (_, step) => ({
    done: 100 * (step + 1),
    held: held(step) * mebibyte,
    resident: 180 * mebibyte,
    open: 21,
    ...more,
  }));

test('a process that is filled by its first pictures and stays so does not grow', () => {
  const filled = marks((step) => Math.min(26, 20 + step));
  expect(judgeGrowth(filled).faults).toEqual([]);
});

// 0.1 MiB a mark: of the later 30, the middles of the halves lie 15 marks apart, 1.5 MiB.
test('a thousand bytes kept of each picture are told', () => {
  const { told, faults } = judgeGrowth(marks((step) => 26 + step / 10));
  expect(faults).toEqual(['objects are kept']);
  // 104,858 bytes of 100 pictures: half of the 2,900 since the first lies between the middles of 1,500.
  expect(told).toMatch(/^since 1100: 10\d\d bytes a picture/);
});

test('memory that grows by a step of the allocator is not taken for what is kept; by half a mebibyte a mark it is', () => {
  const [stepped, rising] = [8, 0.6].map((size) =>
    marks(() => 26).map((mark, step) => ({
      ...mark,
      resident: (180 + (size < 1 ? size * step : step > 11 ? size : 0)) * mebibyte,
    })),
  );
  expect(judgeGrowth(stepped ?? []).faults).toEqual([]);
  expect(judgeGrowth(rising ?? []).faults).toEqual(['memory grows with the number of pictures']);
});

test('a file that stays open is told', () => {
  const leaking = marks(() => 26).map((mark, step) => ({ ...mark, open: 21 + step }));
  expect(judgeGrowth(leaking).faults).toEqual(['files stay open']);
});
