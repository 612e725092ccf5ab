import type {
  MeasuredPhoto,
  MeasurePhotoOptions,
  MeasurePhotosOptions,
  OfferedFormats,
  Outcome,
} from '@gaugerod/core';
import { UsageError } from '../print/usage-error.js';
import type { Surroundings } from './command.js';

/** How measuring many photos ended. */
export interface SeveralPhotos {
  /** That were looked at. */
  readonly photos: number;
  /** Of those, that were measured. */
  readonly measured: number;
  /** Whose courses could be several things. */
  readonly offered: number;
  /** That could not be measured. */
  readonly failed: number;
}

/** What photos are measured with. */
interface Several extends Surroundings {
  /** One photo's result in plain words. */
  readonly describe: (report: MeasuredPhoto | OfferedFormats) => readonly string[];
}

// A count and places are of one photo, and so is a file that is written of it.
const ofOne = {
  courses: '--courses',
  spans: '--span',
  corners: '--corners',
  overlay: '--overlay',
  page: '--page',
} as const;

/**
 * Measure many photos, and print of each what came of it as soon as that is known.
 *
 * @param photos - Where they lie.
 * @param wish - What is known of all of them.
 * @param several - What they are measured and printed with.
 * @returns How many came to what.
 * @throws UsageError for an option that is of one photo.
 */
export async function measureSeveral(
  photos: readonly string[],
  wish: MeasurePhotoOptions & MeasurePhotosOptions,
  several: Several,
): Promise<Outcome<SeveralPhotos, never>> {
  const { core, show, isRead, onProgress, describe, references } = several;
  refuseOfOne(wish, photos.length);
  let [measured, offered, failed] = [0, 0, 0];
  const looked = (): number => measured + offered + failed;
  const answers = core.measurePhotos(photos, {
    ...wish,
    references,
    onProgress: (step) => {
      onProgress(`${looked() + 1} of ${photos.length}, ${step}`);
    },
  });
  for await (const { path, outcome, cause } of answers) {
    if (!outcome.ok) failed++;
    else if (outcome.value.method === 'formats') offered++;
    else measured++;
    await show(() => {
      if (cause !== undefined) return Promise.reject(cause);
      return Promise.resolve(
        outcome.ok ? { ...outcome, lines: [...describe(outcome.value), ''] } : outcome,
      );
    }, path);
    // Whoever reads the first lines only has what they wanted.
    if (!isRead()) break;
  }
  return { ok: true, value: { photos: looked(), measured, offered, failed }, warnings: [] };
}

function refuseOfOne(wish: MeasurePhotoOptions, count: number): void {
  for (const [name, flag] of Object.entries(ofOne)) {
    if (!(name in wish)) continue;
    const got = count === 1 ? 'a folder' : count;
    throw new UsageError(`expected one photo beside ${flag}, got ${got}`, {
      hint: 'measure that photo alone',
    });
  }
}

/**
 * Word how measuring many photos ended.
 *
 * @param report - How many came to what.
 * @returns One line.
 */
export function describeSeveral(report: SeveralPhotos): readonly string[] {
  const { photos, measured, offered, failed } = report;
  const counts = [
    `${measured} measured`,
    ...(offered === 0 ? [] : [`${offered} to be told what their courses are`]),
    ...(failed === 0 ? [] : [`${failed} not measured`]),
  ];
  return [`${photos === 1 ? '1 photo' : `${photos} photos`}: ${counts.join(', ')}`];
}
