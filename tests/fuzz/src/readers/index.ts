import type { Reader } from '../reader.js';
import { typed } from './arguments.js';
import { dataUri, transform, values } from './attributes.js';
import { config } from './config.js';
import { css } from './css.js';
import { drawing } from './drawing.js';
import { drawingJobs } from './drawing-jobs.js';
import { exif } from './exif.js';
import { icc } from './icc.js';
import { job } from './job.js';
import { lengths } from './lengths.js';
import { partPictures } from './part-pictures.js';
import { pathData } from './path-data.js';
import { jpegParts, pictures } from './pictures.js';
import { points } from './points.js';
import { printer } from './printer.js';
import { references } from './references.js';
import { scales } from './scales.js';
import { sidecar } from './sidecar.js';
import { strip } from './strip.js';
import { svgz } from './svgz.js';

/** Everything that reads what comes from outside. */
export const readers: readonly Reader[] = [
  lengths,
  scales,
  points,
  sidecar,
  printer,
  references,
  config,
  job,
  pathData,
  transform,
  values,
  dataUri,
  css,
  drawing,
  svgz,
  ...drawingJobs,
  exif,
  icc,
  jpegParts,
  ...pictures,
  ...partPictures,
  strip,
  typed,
];
