import { findCourses, type Raster } from '@gaugerod/core';
import { drawWall, sampleTextures, sampleWalls, seedRanges } from '@gaugerod/fixtures';
import { printReliability, type SureAnswer } from './print-reliability.js';

function answer(raster: Raster, coursePx: number | null): SureAnswer | null {
  const outcome = findCourses(raster);
  if (!outcome.ok) return null;
  const { course, confidence } = outcome.value;
  return { confidence, right: coursePx !== null && Math.abs(course / coursePx - 1) <= 0.01 };
}

// Walls whole and cut down to three to six courses, and textures without any, one to three.
async function gather(seed: number, count: number): Promise<SureAnswer[]> {
  const answers: (SureAnswer | null)[] = [];
  for (const [index, sample] of sampleWalls(seed, count).entries()) {
    const { raster, truth } = await sample.draw();
    answers.push(answer(raster, truth.coursePx));
    const height = Math.round((3.2 + (index % 4)) * truth.coursePx);
    const low = drawWall({ ...sample.params, height });
    answers.push(answer(low.raster, truth.coursePx));
  }
  for (const sample of sampleTextures(seed, count)) {
    answers.push(answer((await sample.draw()).raster, null));
  }
  return answers.filter((each) => each !== null);
}

const toLogit = (confidence: number): number => {
  const inside = Math.min(1 - 1e-4, Math.max(1e-4, confidence));
  return Math.log(inside / (1 - inside));
};

// Logistic regression of right answers on the logit of their confidence, by Newton's steps; a
// weak pull towards 0 and 1 keeps it finite where every answer is right.
function fitLogistic(answers: readonly SureAnswer[]): { a: number; b: number } {
  let a = 0;
  let b = 1;
  for (let round = 0; round < 25; round++) {
    let [ga, gb, haa, hab, hbb] = [-a, 1 - b, 1, 0, 1];
    for (const { confidence, right } of answers) {
      const x = toLogit(confidence);
      const p = 1 / (1 + Math.exp(-(a + b * x)));
      const w = p * (1 - p);
      ga += (right ? 1 : 0) - p;
      gb += ((right ? 1 : 0) - p) * x;
      haa += w;
      hab += w * x;
      hbb += w * x * x;
    }
    const det = haa * hbb - hab * hab;
    a += (hbb * ga - hab * gb) / det;
    b += (haa * gb - hab * ga) / det;
  }
  return { a, b };
}

/**
 * Hold confidence against how often answers are right: the logistic that would mend it, made on one
 * range of seeds (0 and 1 where nothing is to mend), and a reliability table on another.
 *
 * @param words - A number of walls in each (60 unless told).
 */
export async function calibrateConfidence(words: readonly string[]): Promise<void> {
  const count = Number(words.find((word) => /^\d+$/.test(word)) ?? 60);
  const { a, b } = fitLogistic(await gather(seedRanges.tuning, count));
  console.log(`logit of a right answer = ${a.toFixed(2)} + ${b.toFixed(2)} logit of confidence`);
  printReliability(await gather(seedRanges.test, count));
}
