import type { MakeFinish } from '../../raster/row-finish.js';
import { changeColours, type ColourTable } from './colour-table.js';

/**
 * Change the colours of rows by a table, as the last that is done to them.
 *
 * @param table - What becomes of colours.
 * @returns What makes the finish.
 */
export function printFinish(table: ColourTable): MakeFinish {
  return ({ width }) => ({
    isEven: true,
    runs: () => [{ from: 0, to: width, even: true }],
    change: (colours) => {
      changeColours(table, colours);
    },
  });
}
