/**
 * Tell whether a shape's line lies under its fill.
 *
 * @param order - Its `paint-order`.
 * @returns Whether its line is painted first: what is not named follows in the usual order.
 * @see SVG 2, 13.8: paint-order
 */
export function isLineFirst(order: string): boolean {
  const words = order.toLowerCase().split(/\s+/);
  return words.find((word) => word === 'fill' || word === 'stroke') === 'stroke';
}
