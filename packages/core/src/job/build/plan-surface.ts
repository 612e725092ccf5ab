import { sidecarPath } from '../../surface/sidecar-path.js';
import type { Dpi } from '../../units/units.js';
import { checkExtendSize } from '../extend/extend-wish.js';
import { checkReference, type ReferenceOptions } from '../measure/reference-options.js';
import { BadJob, type JobPath } from './bad-job.js';
import type { SurfaceStep } from './build-plan.js';
import {
  extendFields,
  type ExtendValues,
  mendFields,
  surfaceFieldsWith,
} from './fields/surface-fields.js';
import { given } from '../given.js';
import { inFolder } from './in-folder.js';
import type { JobContext } from './job-context.js';
import { checked, type Entry, takeKeys } from './take-keys.js';

/** A surface as the job file tells of it. */
export interface TakenSurface {
  /** Its name. */
  readonly name: string;
  /** The photo. */
  readonly photo: string;
  /** Others that it is joined with. */
  readonly others: readonly string[];
  /** What is known of it, and how it is made. */
  readonly options: Omit<SurfaceStep['options'], 'scale' | 'dpi'>;
}

/**
 * Take what a job file tells of a surface.
 *
 * @param name - What it is called.
 * @param entry - As written.
 * @param context - Of the job.
 * @returns What it comes to.
 * @throws BadJob where something of it cannot be meant.
 */
export function takeSurface(name: string, entry: Entry, context: JobContext): TakenSurface {
  const path: JobPath = ['surfaces', name];
  const { references } = context.usual;
  const fields = surfaceFieldsWith(references);
  const { span, length, rectangle, even, ...others } = takeKeys(fields, entry, path);
  const mend = takeKeys(mendFields, entry['mend'] as Entry | undefined, [...path, 'mend']);
  const reference: ReferenceOptions = {
    ...others,
    ...given({ spans: span, lengths: length, rectangleSize: rectangle }),
    ...(references.length > 0 && { references }),
  };
  checked(() => checkReference(reference), entry, path);
  const extend = takeExtend(entry, context, path);
  return {
    name,
    photo: inFolder(context.folder, entry['photo'] as string),
    others: otherPhotos(entry).map((photo) => inFolder(context.folder, photo)),
    options: {
      ...reference,
      even: even ?? context.top.even ?? true,
      method: mend.method ?? 'auto',
      ...given({ mendAxis: mend.axis, extend }),
    },
  };
}

/**
 * List the photos that a surface is joined of beside its own.
 *
 * @param entry - As written.
 * @returns They, as written.
 */
export function otherPhotos(entry: Entry): readonly string[] {
  const { photos = [] } = (entry['extend'] ?? {}) as { readonly photos?: readonly string[] };
  return photos;
}

// What of a surface holds for each of its photos.
const ofAll = ['photo', 'course', 'axis', 'straighten', 'even', 'extend'];

function takeExtend(entry: Entry, { scale }: JobContext, path: JobPath): ExtendValues | undefined {
  const written = entry['extend'] as Entry | undefined;
  if (written === undefined) return undefined;
  const at = [...path, 'extend'];
  const key = Object.keys(entry).find((one) => !ofAll.includes(one));
  if (key !== undefined)
    throw new BadJob([...path, key], `expected no ${key} beside extend, got both`, {
      hint:
        key === 'mend'
          ? 'what is extended repeats already'
          : 'measure each photo that way and keep it beside the photo: gaugerod measure --save',
    });
  const extend = takeKeys(extendFields, written, at);
  checked(() => checkExtendSize({ ...extend, scale }), written, at);
  return extend;
}

/**
 * Plan a surface at a scale and resolution.
 *
 * @param surface - Which.
 * @param context - Of the job.
 * @param dpi - Of the parts that need it.
 * @returns What there is to do.
 */
export function planSurfaceStep(surface: TakenSurface, context: JobContext, dpi: Dpi): SurfaceStep {
  const { name, photo, others, options } = surface;
  const { scale } = context;
  return {
    kind: 'surface',
    id: `surface/1:${scale.ratio}/${dpi}/${name}`,
    name,
    scale,
    needs: [],
    inputs: [photo, ...others].flatMap((path) => [path, sidecarPath(path)]),
    // That of the part which asks for it.
    set: [],
    photo,
    others,
    options: { ...options, scale, dpi },
  };
}
