import { parseSidecar } from './parse-sidecar.js';
import { type Sidecar, sidecarSchema } from './sidecar.js';

/**
 * Write what a surface file says as its text.
 *
 * @param sidecar - What to keep.
 * @returns JSON, two blanks a level, ended by a line break.
 * @throws BadField when a value is one that would not be read back, such as NaN.
 */
export function toSidecarJson(sidecar: Sidecar): string {
  const { photo, measurement, finished = false, plain = false } = sidecar;
  const { licence, credit } = sidecar;
  const { reference, lattice } = measurement;
  const json = {
    schema: `${sidecarSchema.name}/${sidecarSchema.version}`,
    photo,
    mmPerPx: measurement.mmPerPx,
    uncertaintyPercent: measurement.uncertaintyPercent,
    uncertaintyBudget: Object.fromEntries(
      measurement.budget.map(({ source, percent }) => [source, percent]),
    ),
    confidence: measurement.confidence,
    method: measurement.method,
    reference: {
      id: reference.id,
      name: reference.name,
      sizeMm: reference.size,
      sizeUncertaintyPercent: reference.uncertainty * 100,
      source: reference.source,
      ...(reference.laidDry === true && { laidDry: true }),
    },
    rectification: measurement.rectification,
    lattice: lattice && {
      axis: lattice.axis,
      coursePeriodPx: lattice.course,
      courseOffsetPx: lattice.courseOffset,
      brickPeriodPx: lattice.brick,
      bond: lattice.bond,
    },
    tile: lattice?.repeat ?? null,
    ...(finished && { finished }),
    ...(plain && { plain }),
    licence,
    credit,
  };
  const text = `${JSON.stringify(json, null, 2)}\n`;
  parseSidecar(text);
  return text;
}
