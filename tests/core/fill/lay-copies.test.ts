import { dpi, fillRows, planTile, printMm, type Raster, repeatTile } from '@gaugerod/core';
import { expect, test } from 'vitest';
import { noisePicture } from '../../support/noise-picture.js';

// Copies that come to no whole dots: three of 98 columns are 32.67 each, four of 62 rows 15.5.
function laid(): Raster {
  const axis = { length: 300, factor: 0.25, seamless: false };
  const planned = planTile(
    { x: { ...axis, repeat: 82 }, y: { ...axis, repeat: 62 } },
    { keep: 0.1 },
  );
  if (!planned.ok) throw new Error(planned.message);
  const { x, y } = planned.value;
  return repeatTile(noisePicture(x.workPeriod, y.workPeriod, 7), {
    x: { ...x, copies: 3, period: x.workPeriod },
    y: { ...y, copies: 4, period: y.workPeriod },
  });
}

const part = { width: printMm(12), height: printMm(9), dpi: dpi(254) };

const pageOf = (tile: Raster): readonly Uint8Array[] =>
  [...fillRows(tile, part).rows.rows()].map((row) => row.slice());

// Half a dot off at most; half-way between two dots, either.
const nearest = (place: number): readonly number[] => [
  ...new Set([Math.ceil(place - 0.5), Math.floor(place + 0.5)]),
];

test('each copy lies on the dot nearest its true place, and is the first again, to the byte', () => {
  const tile = laid();
  const page = pageOf(tile);
  const exact = { x: tile.width / 3, y: tile.height / 4 };
  const [whole, tall] = [Math.floor(exact.x), Math.floor(exact.y)];
  for (let nth = 1; nth * exact.x + whole < 120; nth++) {
    const same = nearest(nth * exact.x).filter((left) =>
      page.every((row) =>
        Buffer.from(row.slice(3 * left, 3 * (left + whole))).equals(row.slice(0, 3 * whole)),
      ),
    );
    expect(same).not.toEqual([]);
  }
  for (let nth = 1; nth * exact.y + tall < 90; nth++) {
    const same = nearest(nth * exact.y).filter((top) =>
      page.slice(top, top + tall).every((row, i) => Buffer.from(row).equals(page[i]!)),
    );
    expect(same).not.toEqual([]);
  }
});

test('what is filled with copies is what the tile shows where it is looked at', () => {
  const { width, height, planes } = laid();
  expect(pageOf(laid())).toEqual(pageOf({ width, height, planes }));
});
