import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { buildJob, type BuildJobOptions, type BuiltJob } from '@gaugerod/core';
import { drawWall, encodePhoto } from '@gaugerod/fixtures';
import { tempFolder } from './temp-folder.js';

export interface Photos {
  readonly red: Buffer;
  readonly pale: Buffer;
  readonly other: Buffer;
}

export async function drawPhotos(): Promise<Photos> {
  const draw = async (seed: number): Promise<Buffer> => {
    const wall = drawWall({ bond: 'flemish', coursePx: 24.5, width: 360, height: 300, seed });
    return encodePhoto(wall.raster, { format: 'png' });
  };
  const [red, pale, other] = await Promise.all([draw(801), draw(802), draw(803)]);
  return { red, pale, other };
}

export const job = `gaugerod: 1
scale: N-UK
dpi: 300
surfaces:
  engine-house: { photo: red.png, course: uk-metric }
  shed:         { photo: pale.png, course: uk-metric }
parts:
  gable:  { surface: engine-house, size: 40x30mm, datum: [3, 2], bleed: 1mm }
  side:   { surface: shed, size: 30x20mm, bleed: 1mm }
  girder: { relief: { section: UB 533x210x92, length: 5m }, colour: firebrick, bleed: 1mm }
  front:  { drawing: front.svg, paint: { "#b5432e": engine-house, .shed: shed } }
sheets:
  walls: { parts: [gable, side] }
  iron:  { parts: [girder] }
`;

const drawing = `<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="30mm" viewBox="0 0 60 30">
<path fill="#b5432e" d="M2 28V8l12-6 12 6v20z"/><rect class="shed" x="30" y="10" width="25" height="18"/></svg>`;

export interface Works {
  readonly folder: string;
  readonly build: (more?: BuildJobOptions) => Promise<BuiltJob>;
  readonly write: (text: string) => void;
}

// A folder with two photos, a drawing and the job, gone once the test is over.
export function works({ red, pale }: Photos, text = job): Works {
  const folder = tempFolder();
  const path = join(folder, 'works.yaml');
  const write = (said: string): void => {
    writeFileSync(path, said);
  };
  write(text);
  writeFileSync(join(folder, 'red.png'), red);
  writeFileSync(join(folder, 'pale.png'), pale);
  writeFileSync(join(folder, 'front.svg'), drawing);
  const build = async (more: BuildJobOptions = {}): Promise<BuiltJob> => {
    const built = await buildJob(path, { jobs: 1, ...more });
    if (!built.ok) throw new Error(built.message);
    return built.value;
  };
  return { folder, build, write };
}

export function statesOf({ steps }: BuiltJob): Record<string, string> {
  return Object.fromEntries(steps.map(({ name, state }) => [name, state]));
}

export function builtOf(built: BuiltJob): string[] {
  return built.steps.filter(({ state }) => state === 'built').map(({ name }) => name);
}
