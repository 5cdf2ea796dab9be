/**
 * Runs, cut-outs, shelves and finishes to come: every reason provoked in true rooms, where the numbers are plain.
 */
import { describe, expect, it } from 'vitest';
import { answerKey } from '../../src/marking/answer-key.ts';
import { sideWalls } from '../../src/marking/carcass-fit.ts';
import { markCutOuts } from '../../src/marking/cut-outs.ts';
import { markSurvey } from '../../src/marking/report.ts';
import { sayReason } from '../../src/marking/report-words.ts';
import { runKey, unevenness } from '../../src/marking/run.ts';
import { siteOf } from '../../src/marking/site.ts';
import type { SetOutCode } from '../../src/marking/verdict.ts';
import { buildRecess } from '../../src/recess/recess.ts';
import type { Trim } from '../../src/recess/recess-spec.ts';
import type { ActOf, BandEdge } from '../../src/survey/act.ts';
import { workOutCutOuts } from '../../src/survey/cut-out.ts';
import { offsetsOverMade, sizesOf } from '../../src/survey/size.ts';
import type { Survey } from '../../src/survey/survey.ts';
import { exerciseIn, roomSpec } from '../helpers/rooms.ts';
import { acted, doneOf, middleOf, standing, surveyIn } from '../helpers/surveying.ts';

/** A socket 86 square, its middle 600 right of the middle and 343 up, 30 proud. */
const socket: Trim = {
  name: 'socket 1',
  kind: 'socket-box',
  surface: 'back',
  uMm: [557, 643],
  vMm: [300, 386],
  profile: {
    along: 'v',
    mm: [
      [300, 30],
      [386, 30],
    ],
  },
};
const room = { breastSide: null, openingMm: { width: 3000, height: 2400, depth: 500 }, mouthMm: 0, trims: [socket] };
const asks = {
  frame: null,
  askMm: { left: 20, right: 20, top: 6, back: 8 },
  fates: { 'socket 1': 'cut' as const },
  modules: { count: 4, mostInfillMm: 60 },
  cutOuts: ['socket 1'],
  cutOutSpareMm: { least: 4, most: 15 },
};
const start = acted(surveyIn(room, { brief: asks }), ...standing);
const { runMm: _run, ...even } = setOutAt(-1480, 1480);

/** S stands at the hand's x = 0, which lies off the room's middle. */
function squareOf(survey: Survey): number {
  const plane = survey.planes['S']!;
  return plane.c / plane.nx;
}

/** A proposal whose run goes from one place in the room to another, its cut-out on the socket. */
function setOutAt(left: number, right: number): Partial<ActOf<'propose'>> {
  const s = squareOf(start);
  const level = start.planes['L']!.c;
  return {
    carcassMm: { width: right - left, height: 2290, depth: 470 },
    runMm: [0, 1, 2, 3, 4].map((i) => left - s + (i * (right - left)) / 4),
    cutOutsMm: [{ name: 'socket 1', fromS: 600 - s, fromL: 343 - level, width: 94, height: 94 }],
  };
}

function reasonsOf(survey: Survey, proposal: Partial<ActOf<'propose'>>) {
  const done = acted(survey, { act: 'propose', ...proposal }, { act: 'hand-in' });
  return markSurvey(done).marks!.verdict!.reasons;
}

const shelfRoom = {
  ...room,
  trims: [],
};
const shelves = { heightsMm: [400, 900], thicknessMm: 25, lengthMm: 1200, leastStockMm: 4, mostStockMm: 20 };
const shelfStart = acted(surveyIn(shelfRoom, { brief: { frame: null, shelves } }), ...standing);

const good = setOutAt(-1480, 1480);
const cut = (change: object) => ({ ...good, cutOutsMm: [{ ...good.cutOutsMm![0]!, ...change }] });
const cases: readonly (readonly [SetOutCode, Survey, Partial<ActOf<'propose'>>, number])[] = [
  ['run/none', start, even, 0],
  ['run/clearance', start, { ...setOutAt(-1490, 1470), carcassMm: good.carcassMm! }, 10],
  ['run/infill-wide', start, setOutAt(-1430, 1480), 70],
  ['run/uneven', start, { ...good, runMm: good.runMm!.map((at, i) => (i === 2 ? at + 5 : at)) }, 5],
  ['cut-out/none', start, { ...good, cutOutsMm: [] }, 0],
  ['cut-out/short', start, cut({ fromS: good.cutOutsMm![0]!.fromS + 6 }), -2],
  ['cut-out/wide', start, cut({ height: 86 + 36 }), 18],
  ['shelf/does-not-reach', shelfStart, { shelfMm: { depth: 499 } }, -1],
  ['shelf/stock-short', shelfStart, { shelfMm: { depth: 501 } }, 1],
  ['shelf/stock-over', shelfStart, { shelfMm: { depth: 523 } }, 23],
];

describe('what is set out', () => {
  it('right, gives no reason of its own', () => {
    expect(reasonsOf(start, good).filter(({ code }) => /^(run|cut-out)/.test(code))).toEqual([]);
    expect(reasonsOf(shelfStart, { shelfMm: { depth: 504 } }).filter(({ code }) => code.startsWith('shelf'))).toEqual(
      [],
    );
  });

  it.each(cases)('%s', (code, survey, proposal, mm) => {
    const reason = reasonsOf(survey, proposal).find((r) => r.code === code);
    expect(reason?.mm).toBeCloseTo(mm, 2);
    expect(sayReason(reason!)).not.toMatch(/undefined|NaN|\//);
  });

  it('a carcass that is sent where shelves are asked for is nothing', () => {
    const [first] = reasonsOf(shelfStart, { carcassMm: { width: 1000, height: 2000, depth: 300 } });
    expect(first?.code).toBe('nothing/proposed');
  });
});

describe('a run', () => {
  it('that is chained from part-sizes rounded up shows the last joint off even widths', () => {
    const whole = 2960.4 / 4;
    const chained = [0, 1, 2, 3].map((i) => i * Math.ceil(whole));
    expect(unevenness([...chained, 2960.4])).toBeCloseTo(3 * (Math.ceil(whole) - whole), 6);
    expect(unevenness([0, 1, 2, 3, 4].map((i) => i * whole))).toBeCloseTo(0, 9);
  });

  it('has its infills from the bare wall on the face line, its clearances over the whole way in', () => {
    const leaning = roomSpec({
      ...room,
      defects: {
        left: [
          { kind: 'taper', mm: 10 },
          { kind: 'lean', mm: 8 },
        ],
      },
    });
    const exercise = exerciseIn(leaning, { brief: asks });
    const site = siteOf(buildRecess(leaning), exercise);
    const walls = sideWalls(site, { widthMm: 2960, heightMm: 2200, depthMm: 480 })!;
    const run = runKey(site, [-1480, 0, 1480], { walls, heightMm: 2200 });
    // The taper turns about the middle of the depth, the lean about the middle of the height; back top is nearest.
    const into = (y: number, z: number) => (10 * (y - 250)) / 500 + (8 * (z - 1200)) / 2400;
    expect(run.clearanceMm.left).toBeCloseTo(20 - into(500, walls.bottomMm + 2200), 2);
    expect(run.infillMm.left[0]).toBeCloseTo(20 - into(0, walls.bottomMm + 2200), 2);
    expect(run.infillMm.left[1]).toBeCloseTo(20 - into(0, walls.bottomMm), 2);
    expect(run.infillMm.right).toEqual([expect.closeTo(20, 2), expect.closeTo(20, 2)]);
  });
});

describe('a cut-out', () => {
  const edges: readonly BandEdge[] = ['left', 'right', 'bottom', 'top'];
  const read = (survey: Survey, slip: (edge: BandEdge) => number) =>
    edges.reduce((now, edge) => {
      const upright = edge === 'left' || edge === 'right';
      const place = { surface: 'back' as const, xMm: 600, zMm: 343, edge };
      const datum = upright ? 'S' : 'L';
      const act = { act: 'read', datum, place } as const;
      const valueMm = middleOf(doneOf(now, act)) + slip(edge);
      return acted(now, act, { act: 'book', what: 'offset', datum, place, valueMm });
    }, survey);

  /** The hand's line is not square to the room: at the box, 12 proud of its 30, it runs off by its turn. */
  const { nx, ny, c } = start.planes['S']!;
  const atBox = nx * 600 + ny * (500 - 30 - 12) - c;

  it('is worked out from its edges: the middle from each line, the size and the least spare', () => {
    const [found] = workOutCutOuts(read(start, () => 0));
    expect(found!.fromS).toBeCloseTo(atBox, 3);
    expect(found!.fromL).toBeCloseTo(343 - start.planes['L']!.c, 3);
    expect([found!.width, found!.height]).toEqual([expect.closeTo(94, 2), expect.closeTo(94, 2)]);
  });

  it('has each millimetre told: a slip of the pen at one edge moves its middle by half of it', () => {
    const survey = read(start, (edge) => (edge === 'left' ? 6 : 0));
    const [found] = workOutCutOuts(survey);
    const said = { ...good, cutOutsMm: [{ ...good.cutOutsMm![0]!, fromS: found!.fromS! + 2 }] };
    const [mark] = markCutOuts(acted(survey, { act: 'propose', ...said }));
    const line = (name: string) => mark!.fromS!.lines.find((l) => l.name === name)!.mm;
    expect([line('set-up'), line('rule'), line('booking'), line('working-out')]).toEqual([
      expect.closeTo(atBox - (600 - squareOf(start)), 2),
      expect.closeTo(0, 2),
      expect.closeTo(3, 2),
      expect.closeTo(2, 2),
    ]);
    expect(mark!.fromL!.lines.map((l) => l.mm)).toEqual(mark!.fromL!.lines.map(() => expect.closeTo(0, 2)));
  });

  it('that nothing was booked for is not surveyed', () => {
    const [mark] = markCutOuts(acted(start, { act: 'propose', ...good }));
    expect(mark!.fromS!.lines.map((l) => l.name)).toEqual(['not-surveyed']);
  });
});

describe('a finish to come', () => {
  const spec = roomSpec(room);
  const keyWith = (finishMm: { surface: 'floor' | 'left'; mm: number }[]) => {
    const exercise = exerciseIn(spec, { brief: { ...asks, finishMm } });
    const result = answerKey(buildRecess(spec), exercise);
    if (!result.ok) throw new Error(result.error.says);
    return result.key;
  };

  it('on the floor takes its thickness off the height, on a wall off the width', () => {
    const bare = keyWith([]);
    expect(bare.tallestMm! - keyWith([{ surface: 'floor', mm: 15 }]).tallestMm!).toBeCloseTo(15, 3);
    expect(bare.widestMm! - keyWith([{ surface: 'left', mm: 12 }]).widestMm!).toBeCloseTo(12, 3);
    expect(keyWith([{ surface: 'floor', mm: 15 }]).plinthMm).toEqual(bare.plinthMm);
  });

  it('is taken off by the right rules, for offsets are read before it is there', () => {
    const { brief } = exerciseIn(spec, { brief: { ...asks, finishMm: [{ surface: 'floor', mm: 15 }] } });
    expect(sizesOf(brief).map((size) => offsetsOverMade(size, brief))).toEqual([40, 121, 28, 20, 20]);
  });
});
