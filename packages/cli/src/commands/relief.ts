import { outlineLimits, refuseLimits } from '../options/limits.js';
import type { MadeRelief, ReliefLayer } from '@gaugerod/core';
import { along } from '../options/along.js';
import { around } from '../options/around.js';
import { bar } from '../options/bar.js';
import { block } from '../options/block.js';
import { board } from '../options/board.js';
import { boardLength } from '../options/board-length.js';
import { outline } from '../options/outline.js';
import { panes } from '../options/panes.js';
import { rail } from '../options/rail.js';
import { rise } from '../options/rise.js';
import { sunk } from '../options/sunk.js';
import { upright } from '../options/upright.js';
import { bleed } from '../options/bleed.js';
import { colour } from '../options/colour.js';
import { copies } from '../options/copies.js';
import { covers } from '../options/covers.js';
import { course } from '../options/course.js';
import { depth } from '../options/depth.js';
import { dpi } from '../options/dpi.js';
import { fillOutput } from '../options/fill-output.js';
import { flange } from '../options/flange.js';
import { gap } from '../options/gap.js';
import { card, layers } from '../options/card-layers.js';
import { leg } from '../options/leg.js';
import { light } from '../options/light.js';
import { noEven } from '../options/no-even.js';
import { profile } from '../options/profile.js';
import { printing, printingOf, usualPrinting } from '../options/printing.js';
import { quality } from '../options/quality.js';
import { realLength } from '../options/real-length.js';
import { region } from '../options/region.js';
import { rivetHead } from '../options/rivet-head.js';
import { rivets } from '../options/rivets.js';
import { root } from '../options/root.js';
import { scale } from '../options/scale.js';
import { section } from '../options/section.js';
import { spliceWidth } from '../options/splice-width.js';
import { splices } from '../options/splices.js';
import { stiffeners } from '../options/stiffeners.js';
import { strength } from '../options/strength.js';
import { reliefWeather, weatherOf } from '../options/weather.js';
import { web } from '../options/web.js';
import { width } from '../options/width.js';
import { inColumns } from '../print/in-columns.js';
import { inDigits } from '../print/in-digits.js';
import { inLength } from '../print/in-length.js';
import { inSize } from '../print/in-size.js';
import { measurementLines } from '../print/measurement-lines.js';
import { printingInWords } from '../print/printing-in-words.js';
import { scaleInWords } from '../print/scale-in-words.js';
import { weatherInWords } from '../print/weather-in-words.js';
import { UsageError } from '../print/usage-error.js';
import type { Command } from './command.js';
import { defineCommand } from './define-command.js';

/** `gaugerod relief`. */
export const relief: Command = defineCommand({
  argumentHelp: 'a measured photo of its surface, rusty steel say; without one it is of one colour',
  description:
    'Draw a beam, an angle, a plate or a girder from the side so that a flat strip of print reads as rolled steel: a light line along each edge that faces the light and a dark one along each that does not, rounded corners shaded, the shadow of the flange on the web. All is blended over the photo, whose rust stays, and no line is thinner than prints.',
  examples: [
    {
      line: 'relief rust.jpg --section "UB 533x210x92" --length 14.8m --scale N-UK -o girder.png',
      does: 'A girder in British N from the catalogue, over a measured photo:',
    },
    {
      line: 'relief rust.jpg --section "UB 533x210x92" --length 14.8m --scale N-UK --weather grimy --rust 0.6 -o old.png',
      does: 'The same, sooted, with rust running down it:',
    },
    {
      line: 'relief --profile plate-girder --depth 1.2m --flange 40mm --leg 100mm --web 12mm --width 350mm --stiffeners 1.2m --rivets 4in --colour "#7a543e" --length 14.8m --scale N-UK -o bridge.svg',
      does: 'A riveted bridge girder of own sizes, painted, its lines to be edited:',
    },
    {
      line: 'relief --profile plate-girder --depth 900mm --flange 30mm --leg 90mm --rivets 4in --along bridge.svg#arch --scale 1:76.2 -o arch.png',
      does: 'The same bent to an arch, along a path drawn at its size on paper:',
    },
    {
      line: 'relief oak.jpg --profile planks --depth 2.1m --length 6m --board-length 2.4m --scale 1:76.2 -o fence.png',
      does: 'A fence of planks over a photo of timber:',
    },
    {
      line: 'relief --profile frame --depth 1.5m --length 900mm --panes 2x4 --colour "#c9c6bb" --scale 1:76.2 -o window.png',
      does: 'A window with eight panes, left open:',
    },
    {
      line: 'relief rust.jpg --section "UB 533x210x92" --length 14.8m --scale 1:76.2 --layers -o beam.png',
      does: 'A beam to be built up from card of 0.5 mm, its flanges in a file of their own:',
    },
    {
      line: 'relief rust.jpg --section "IPE 300" --length 6m --scale 1:87 --copies 12 -o beams.pdf',
      does: 'Twelve beams on a page to cut apart:',
    },
  ],
  caution: [
    'Sections are drawn for models, and are not for structural use.',
    'Cutting out: sharp knives, a cutting mat, and open windows for spray adhesive.',
    'Check that the terms of the photo allow printing, and selling, the model.',
  ].join('\n'),
  options: {
    output: fillOutput,
    scale,
    region,
    length: realLength,
    along,
    section: {
      ...section,
      help: 'the rolled section that it is, from the catalogue: UB 533x210x92',
    },
    profile,
    depth,
    flange,
    width,
    web,
    root,
    leg,
    outline: {
      ...outline,
      help: 'or the shape of a panel, at its size in a drawing, holes and all: front.svg#shield; then it needs no profile, length or depth',
    },
    sunk,
    rise,
    board,
    boardLength,
    upright,
    rail,
    bar,
    panes,
    block,
    around,
    covers,
    stiffeners,
    rivets,
    rivetHead,
    splices,
    spliceWidth,
    light,
    strength,
    colour,
    course: { ...course, help: 'what the courses are of a photo that was never measured' },
    noEven,
    dpi,
    bleed: { ...bleed, help: 'extra picture past every side, to be cut away (default: 0)' },
    copies: {
      ...copies,
      help: 'how many pieces, one under the other (default: 1)',
      parse: (text, { name, core }) => core.parseWhole(text, name, { most: 1000 }),
    },
    gap: { ...gap, help: 'paper between them (default: 1mm)' },
    layers,
    card,
    quality,
    ...reliefWeather,
    ...printing,
    ...outlineLimits,
  },
  // Relief of a drawing is blended by whoever shows it.
  usual: ({ output }) => [
    'scale',
    'dpi',
    ...(/\.svg$/i.test(String(output)) ? (['sharpen'] as const) : usualPrinting),
  ],
  run: (
    photo,
    { noEven: isUneven, sunk: isSunk, upright: isUpright, layers: isLayered, ...values },
    { core, ...job },
  ) => {
    if (photo === '') {
      const limits = ['mostPixels', 'mostSeconds'] as const;
      refuseLimits(values, job.settings, { what: 'a photo', limits });
    }
    if ((values.outline ?? values.along) === undefined) {
      const limits = ['mostElements', 'mostDepth'] as const;
      refuseLimits(values, job.settings, { what: 'an --outline or --along', limits });
    }
    if (isUneven && photo === '') throw new UsageError('expected a photo for --no-even, got none');
    const left = isUneven ? { even: false } : {};
    const weather = weatherOf(values);
    const aged = Object.keys(weather).length > 0 ? { weather } : {};
    return core.makeRelief(photo === '' ? null : photo, {
      ...values,
      isSunk: isSunk === true,
      isUpright: isUpright === true,
      isLayered: isLayered === true,
      ...left,
      ...aged,
      ...printingOf(values),
      ...job,
    });
  },
  describe: (report) => [
    `${report.output}, ${report.widthPx} x ${report.heightPx} px at ${inDigits(report.dpi)} dpi: ${inSize({ width: report.widthMm, height: report.heightMm })} of paper`,
    ...inColumns([
      ['scale', scaleInWords(report.scale)],
      ['section', sectionInWords(report)],
      ['a piece is', pieceInWords(report)],
      ['on it', fittingsInWords(report)],
      ['light', `from ${report.light.replace('-', ' ')}, strength ${inDigits(report.strength)}`],
      ...report.lines.map(
        ({ edge, fromMm, toMm }, i) =>
          [
            i === 0 ? 'lines' : '',
            `${inDigits(fromMm, 3)} to ${inDigits(toMm, 3)} mm: ${edge}`,
          ] as const,
      ),
      ['weather', weatherInWords(report.weather)],
      ['along', alongInWords(report)],
      ['print', printingInWords(report.printing)],
      ...report.layers.map(
        (layer) => [layer.order === 1 ? 'layers' : '', layerInWords(layer)] as const,
      ),
      ['over', report.photo ?? report.colour],
      ...(report.measurement === null ? [] : measurementLines(report.measurement)),
    ]),
  ],
});

function sectionInWords({ section: known, profile: kind, real }: MadeRelief): string {
  const size = `${inLength(real.depth)} deep, ${inLength(real.length)} long`;
  const taper = known?.flanges === 'taper' ? '; flanges that taper are drawn at their mean' : '';
  return `${known === null ? kind : known.name}, ${size}${taper}`;
}

function alongInWords({ along: line }: MadeRelief): string | null {
  if (line === null) return null;
  const { path, id, xMm, yMm } = line;
  const name = id === null ? path : `${path}#${id}`;
  return `${name}, the piece's corner at ${inDigits(xMm)},${inDigits(yMm)} mm of its page`;
}

function pieceInWords({ piece, copies: count }: MadeRelief): string {
  const { lengthMm, depthMm, flangeMm } = piece;
  const size = inSize({ width: lengthMm, height: depthMm });
  const flanges = flangeMm === null ? '' : `, flanges ${inDigits(flangeMm, 3)} mm`;
  return `${size} of paper${flanges}${count === 1 ? '' : `; ${count} of them`}`;
}

function layerInWords({ file, name, cardMm, cards, pieces, openings }: ReliefLayer): string {
  const thick = countOf(cards, 'card') ?? '';
  const cut = [countOf(pieces, 'piece'), countOf(openings, 'opening')].filter(
    (part) => part !== null,
  );
  return `${file}: ${name}, ${thick} of ${inDigits(cardMm)} mm; ${cut.join(' with ')}`;
}

function fittingsInWords({
  stiffeners: bars,
  rivets: heads,
  splices: joints,
  covers: plates,
}: MadeRelief): string | null {
  const parts = [
    countOf(bars, 'stiffener'),
    countOf(heads, 'rivet'),
    countOf(joints, 'splice'),
    ...(plates === 0 ? [] : [`${countOf(plates, 'plate') ?? ''} on each flange`]),
  ].filter((part) => part !== null);
  return parts.length === 0 ? null : parts.join(', ');
}

function countOf(count: number, word: string): string | null {
  return count === 0 ? null : `${count} ${word}${count === 1 ? '' : 's'}`;
}
