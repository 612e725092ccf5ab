import { createHash } from 'node:crypto';
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { buildJob, type BuildJobOptions, type BuiltJob, measurePhoto } from '@gaugerod/core';
import { findCourse } from '@gaugerod/core';
import type { Photos } from './building.js';

// What a slash is not needed for, since names of files have none.
const hostile = {
  photo: `red <img src=x onerror=alert(1)> & "co" 'ltd'.png`,
  licence: `</style></td><script>alert(2)</script> CC "BY" & <b>`,
  credit: `Tansy "dye" <Wharf> & sons\u202e'' onmouseover='alert(3)' --> ]]> \ud800 &lt;i&gt;`,
  job: `works"><svg onload=alert(4)>&amp;.yaml`,
};

const text = `gaugerod: 1
scale: N-UK
dpi: 300
surfaces:
  engine-house: { photo: ${JSON.stringify(hostile.photo)}, course: uk-metric }
  shed:         { photo: pale.png, course: uk-metric }
parts:
  gable:  { surface: engine-house, size: 40x30mm, datum: [3, 2], bleed: 1mm }
  long:   { surface: shed, size: 250x20mm }
  girder: { relief: { section: UB 533x210x92, length: 5m, layers: true }, colour: firebrick, bleed: 1mm }
  front:  { drawing: front.svg, paint: { "#b5432e": engine-house, .shed: shed } }
sheets:
  walls: { parts: [gable, girder] }
  others: { parts: [long, front], file: others.png }
`;

const drawing = `<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="30mm" viewBox="0 0 60 30">
<path fill="#b5432e" d="M2 28V8l12-6 12 6v20z"/><rect class="shed" x="30" y="10" width="25" height="18"/></svg>`;

/** A job whose names and notes attack the page that shows them. */
export interface HostileWorks {
  readonly folder: string;
  /** Of the report. */
  readonly page: string;
  readonly build: (more?: BuildJobOptions) => Promise<BuiltJob>;
}

export async function hostileWorks({ red, pale }: Photos): Promise<HostileWorks> {
  const folder = mkdtempSync(join(tmpdir(), 'gaugerod-report-'));
  const photo = join(folder, hostile.photo);
  writeFileSync(photo, red);
  writeFileSync(join(folder, 'pale.png'), pale);
  writeFileSync(join(folder, 'front.svg'), drawing);
  writeFileSync(join(folder, hostile.job), text);
  const course = findCourse('uk-metric');
  const { licence, credit } = hostile;
  await measurePhoto(photo, { course, save: true, licence, credit });
  const page = join(folder, 'record.html');
  const build = async (more: BuildJobOptions = {}): Promise<BuiltJob> => {
    const built = await buildJob(join(folder, hostile.job), { jobs: 1, report: page, ...more });
    if (!built.ok) throw new Error(built.message);
    return built.value;
  };
  return { folder, page, build };
}

export function sumOf(path: string): string {
  return createHash('sha256').update(readFileSync(path)).digest('hex');
}
