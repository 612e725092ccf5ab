import type { LimitOptions } from '../../limits/limits.js';
import { findPaper, type Paper } from '../../catalogue/find-paper.js';
import { outOfRange } from '../../errors/out-of-range.js';
import type { Outcome } from '../../errors/outcome.js';
import { drawStrip, stripDotsPerMm } from '../../finish/print/draw-strip.js';
import { stripSize } from '../../finish/print/strip-layout.js';
import { stripPatches, stripVersion } from '../../finish/print/strip-patches.js';
import type { Page, PageText } from '../../page/page.js';
import { toRows } from '../../raster/row-source.js';
import { type Dpi, dpi as toDpi, mmPerInch } from '../../units/units.js';
import { checkOutput } from '../../write/check-output.js';
import { encodePicture } from '../../write/encode-picture.js';
import { writePages } from '../../write/write-pages.js';
import { beginStep, type JobOptions } from '../job-options.js';
import { letterPage } from './letter-page.js';
import { toFigures } from '../to-figures.js';

/** What {@link makeTestStrip} needs to know. */
export interface MakeTestStripOptions extends Omit<JobOptions, keyof LimitOptions> {
  /** The file to write: `.pdf`, or a picture of the page, `.png` or `.tif`. */
  readonly output: string;
  /** What is printed on; A4 unless told. */
  readonly paper?: Paper;
  /** Dots per inch of a page that becomes a picture, 150 to 1200; 600 unless told. */
  readonly dpi?: Dpi;
}

/** A test strip, ready to be printed. */
export interface MadeTestStrip {
  /** The file written. */
  readonly output: string;
  /** Which strip it is: one that was printed can be read as long as this is the same. */
  readonly strip: number;
  /** How many patches it has. */
  readonly patches: number;
  /** What it is printed on. */
  readonly paper: {
    /** `A4`, or null. */
    readonly name: string | null;
    /** Its width. */
    readonly widthMm: number;
    /** Its height. */
    readonly heightMm: number;
  };
}

// No loss but of rounding: what a JPEG or WebP does to edges would be printed and measured.
const stripExtensions = ['.pdf', '.png', '.tif', '.tiff'];
const margin = 8;
const head = 14;
const foot = 24;
const capital = 2;
const leading = 4.6;

/**
 * Make a page to print, to scan or photograph, and to learn a printer from: {@link readTestStrip}.
 *
 * @param options - Where to write, and the paper.
 * @returns What was written, or that the paper is too small.
 * @throws RangeError when an option makes no sense.
 * @throws TextureError when the place does not allow it.
 */
export async function makeTestStrip(
  options: MakeTestStripOptions,
): Promise<Outcome<MadeTestStrip, 'paper-too-small'>> {
  const { output, paper = findPaper('A4'), dpi = toDpi(600) } = options;
  if (!(dpi >= 150 && dpi <= 1200)) throw outOfRange('150 to 1200', 'dpi', dpi);
  await checkOutput(output, { extensions: stripExtensions });
  const least = {
    width: stripSize.width + 2 * margin,
    height: stripSize.height + 2 * margin + head + foot,
  };
  if (!(paper.width >= least.width && paper.height >= least.height)) return tooSmall(least);
  if (!(Math.max(paper.width, paper.height) <= mostPaper)) {
    throw outOfRange('up to 1 m of paper', 'paper', `${paper.width} x ${paper.height} mm`);
  }
  beginStep('writing', options);
  const page = toPage(paper);
  const strip = drawStrip();
  const stripDpi = toDpi(stripDotsPerMm * mmPerInch);
  const bytes = await encodePicture(toRows(strip, stripDpi), { format: 'png' });
  const pixels = { width: strip.width, height: strip.height };
  await writePages(output, {
    pages: [output.toLowerCase().endsWith('.pdf') ? page : letterPage(page)],
    pictures: [{ bytes, shape: null, pixels, size: stripSize, at: { x: 0, y: 0 } }],
    sheet: { paper, printer: { x: 1, y: 1 } },
    dpi,
    isPrinted: false,
    inputs: [],
  });
  const value: MadeTestStrip = {
    output,
    strip: stripVersion,
    patches: stripPatches.length,
    paper: {
      name: paper.name,
      widthMm: toFigures(paper.width, 6),
      heightMm: toFigures(paper.height, 6),
    },
  };
  return { ok: true, value, warnings: [] };
}

const mostPaper = 1000;

function toPage(paper: Paper): Page {
  const { width, height } = stripSize;
  const left = (paper.width - width) / 2;
  const top = margin + head;
  const below = top + height + leading + 2;
  const line = (text: string, y: number): PageText => ({
    text,
    at: { x: left, y },
    size: capital,
    turn: 0,
    anchor: 'start',
  });
  const box = { x: 0, y: 0, width, height };
  return {
    pictures: [
      {
        part: 0,
        box: { ...box, x: left, y: top },
        piece: box,
        turned: false,
        mirrored: false,
        blank: false,
      },
    ],
    lines: [],
    texts: [
      line(
        `gaugerod test strip ${stripVersion}: ${stripPatches.length} patches`,
        margin + capital + 1,
      ),
      line(
        'Print at 100 %, on the paper of the model, with the paper type, quality and colour settings of its pages.',
        margin + capital + 1 + leading,
      ),
      line(
        'When it is dry, scan it at 150 dpi or more, every correction off; or photograph it flat, in even daylight,',
        below,
      ),
      line(
        'without flash, all four marks in view and the white around them. Then:',
        below + leading,
      ),
      line('gaugerod sheet --strip-photo scan.png -o my.printer.json', below + 2 * leading),
    ],
  };
}

function tooSmall({
  width,
  height,
}: {
  readonly width: number;
  readonly height: number;
}): Outcome<never, 'paper-too-small'> {
  return {
    ok: false,
    code: 'paper-too-small',
    message: `the test strip needs paper of ${Math.ceil(width)} x ${Math.ceil(height)} mm or more`,
    hint: 'print it on A4 or Letter',
  };
}
