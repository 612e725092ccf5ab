import type { OfferedFormats } from '@gaugerod/core';
import { type Column, inColumns } from './in-columns.js';
import { inDigits } from './in-digits.js';
import { inLength } from './in-length.js';
import { inSize } from './in-size.js';
import { inShell } from './in-shell.js';

/**
 * Put in words what the courses of a photo could be.
 *
 * @param offered - As a job reports it.
 * @returns Lines, the last of them what to type next.
 */
export function formatLines(offered: OfferedFormats): string[] {
  const { axis, coursePeriodPx, brickPeriodPx, bond, confidence, formats, photo } = offered;
  const [first] = formats;
  const brick =
    coursePeriodPx === null || brickPeriodPx === null
      ? ''
      : `, a brick ${inDigits(brickPeriodPx)} px: ${(brickPeriodPx / coursePeriodPx).toFixed(2)} courses long`;
  const found: Column[] = [
    ['a course is', coursePeriodPx === null ? null : `${inDigits(coursePeriodPx)} px${brick}`],
    ['bond', bond],
    ['confidence', coursePeriodPx === null ? null : `${Math.floor(100 * confidence)} %`],
    ['shown in', offered.overlay ?? null],
    ['point at it in', offered.page ?? null],
  ];
  const size = `${photo.path}, ${photo.width} x ${photo.height} px`;
  if (coursePeriodPx === null) return [`${size}: not measured yet`, ...inColumns(found)];
  return [
    `${size}: not measured until you say what its courses are`,
    ...inColumns(found),
    ...(first === undefined ? [] : ['by their shape they could be', ...tableOf(offered)]),
    `say what they are: gaugerod measure ${inShell(photo.path)} --course ${first?.id ?? '75mm'}${axis === 'x' ? ' --axis x' : ''}`,
  ];
}

function tableOf({ formats, otherProbability }: OfferedFormats): string[] {
  const rows = formats.map(({ id, probability, courseMm, mmPerPx, surfaceSizeMm }) => [
    id,
    inPercent(probability),
    `a course of ${inLength(courseMm)}`,
    `${inDigits(mmPerPx.y)} mm per pixel`,
    `shows ${inSize(surfaceSizeMm)}`,
  ]);
  const none = ['none of these', inPercent(otherProbability ?? 0)];
  const widths = [0, 1, 2, 3].map((i) =>
    Math.max(...[...rows, none].map((row) => (row[i] ?? '').length)),
  );
  return [...rows, none].map((row) =>
    `  ${row.map((cell, i) => (i === 1 ? cell.padStart(widths[i] ?? 0) : cell.padEnd(widths[i] ?? 0))).join('  ')}`.trimEnd(),
  );
}

function inPercent(share: number): string {
  return share < 0.01 ? 'under 1 %' : `${Math.round(100 * share)} %`;
}
