/**
 * Finding rooms that teach: candidates thrown away for each that is kept, and how long a code takes, by mistake and kind.
 *
 * Each code is searched for from a number of its own and timed by itself, once: a code is made once, not over and over.
 */
import { mistakenLearners } from '../../src/learners/mistaken/mistaken.ts';
import { findRoom, mostCandidates } from '../../src/making/candidates.ts';
import type { Figure } from './geometry.ts';
import { quantile } from './timing.ts';

const codes = 20;
const asked: readonly { readonly family: string; readonly mistake: string }[] = [
  { family: 'alcove', mistake: 'M01' },
  { family: 'alcove', mistake: 'M02' },
  { family: 'alcove', mistake: 'M03' },
  { family: 'alcove', mistake: 'M10' },
  { family: 'run', mistake: 'M02' },
  { family: 'doorway', mistake: 'M02' },
];

export function makingFigures(): Figure[] {
  return asked.flatMap(({ family, mistake }) => {
    const makes = mistakenLearners.find((l) => l.mistake === mistake);
    if (!makes) throw new Error(`bench: nobody makes ${mistake}`);
    const thrown: number[] = [];
    const ms = new Float64Array(codes);
    for (let from = 0; from < codes; from++) {
      const begun = performance.now();
      const search = findRoom({ family, severity: 'old', kit: 'guided' }, makes, from);
      ms[from] = performance.now() - begun;
      if (search.ok) thrown.push(search.found.thrown.cheap + search.found.thrown.hard + search.found.thrown.unseen);
    }
    const mean = thrown.reduce((sum, n) => sum + n, 0) / Math.max(1, thrown.length);
    ms.sort();
    return [
      { name: `${family}, ${mistake}: candidates thrown away a code, mean of ${thrown.length}`, value: mean, unit: '' },
      {
        name: `${family}, ${mistake}: of ${codes}, none found in ${mostCandidates}`,
        value: codes - thrown.length,
        unit: '',
      },
      { name: `${family}, ${mistake}: time a code, median`, value: quantile(ms, 0.5), unit: 'ms' },
      { name: `${family}, ${mistake}: time a code, worst of ${codes}`, value: quantile(ms, 1), unit: 'ms' },
    ];
  });
}
