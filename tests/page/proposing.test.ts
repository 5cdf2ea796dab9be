/** What is put together for the workshop, against proposals written out by hand. */

import { expect, test } from 'vitest';
import type { Brief } from '../../src/exercise/brief.ts';
import { asItStands, evenJoints, proposalOf, questionsOf, type Written } from '../../src/page/state/proposing.ts';
import { writtenLength } from '../../src/recess/lengths.ts';
import { sizeNames } from '../../src/survey/size.ts';
import { briefFor, roomSpec } from '../helpers/rooms.ts';

const none = Object.fromEntries(sizeNames.map((s) => [s, ''])) as Written['made'];
const written = (made: Partial<Written['made']>, more: Partial<Written> = {}): Written => ({
  made: { ...none, ...made },
  joints: [],
  cutOuts: {},
  ...more,
});
const brief = (change: Partial<Brief>) => briefFor(roomSpec(), { frame: null, ...change });
const carcass = { 'carcass-width': '3000', 'carcass-height': '2100,5', 'carcass-depth': '560' } as const;

test('numbers are read with a comma or a point and with either minus; words are none', () => {
  expect([' 612,5 ', '612.5', '−40', '', 'about 3'].map(writtenLength)).toEqual([612.5, 612.5, -40, null, null]);
});

test('a carcass and a frame go as written; what is missing is told by name', () => {
  const framed = briefFor(roomSpec());
  const sent = written({ ...carcass, 'frame-width': '1010', 'frame-height': '2410' });
  expect(proposalOf(framed, sent, (s) => s)).toEqual({
    ok: true,
    act: {
      act: 'propose',
      carcassMm: { width: 3000, height: 2100.5, depth: 560 },
      frameMm: { width: 1010, height: 2410 },
    },
  });
  expect(proposalOf(framed, written(carcass), (s) => s)).toEqual({
    ok: false,
    missing: ['frame-width', 'frame-height'],
  });
});

test('carcasses side by side meet evenly between the two ends, from S', () => {
  const run = brief({ modules: { count: 4, mostInfillMm: 60 } });
  const made = { ...carcass, 'run-left': '1500', 'run-right': '1480' };
  expect(evenJoints(run, { ...none, ...made })).toEqual([-755, -10, 735]);
  expect(evenJoints(run, none)).toBeNull();
  const joints = ['-755', '-10', '735'];
  expect(proposalOf(run, written(made, { joints }), (s) => s)).toMatchObject({
    ok: true,
    act: { runMm: [-1500, -755, -10, 735, 1480] },
  });
  expect(proposalOf(run, written(made, { joints: ['-755', '', '735'] }), (s) => s)).toEqual({
    ok: false,
    missing: ['where the carcasses meet'],
  });
});

test('cut-outs go by name; a half-written one is missing', () => {
  const cut = brief({ cutOuts: ['socket'] });
  const whole = { socket: { fromS: '−420', fromL: '-700', width: '156', height: '96' } };
  expect(proposalOf(cut, written(carcass, { cutOuts: whole }), (s) => s)).toMatchObject({
    act: { cutOutsMm: [{ name: 'socket', fromS: -420, fromL: -700, width: 156, height: 96 }] },
  });
  const half = { socket: { ...whole.socket, height: '' } };
  expect(proposalOf(cut, written(carcass, { cutOuts: half }), (s) => s)).toEqual({
    ok: false,
    missing: ['the cut-out for the socket'],
  });
});

test('shelves and linings are sent in place of a carcass', () => {
  const shelves = { heightsMm: [400], thicknessMm: 25, lengthMm: 900, leastStockMm: 3, mostStockMm: 30 };
  expect(proposalOf(brief({ shelves }), written({ 'shelf-depth': '312' }), (s) => s)).toEqual({
    ok: true,
    act: { act: 'propose', shelfMm: { depth: 312 } },
  });
  const lining = { thicknessMm: 28, leastStockMm: 1, mostStockMm: 20 };
  const sizes = { 'lining-width': '800', 'lining-height': '2000', 'lining-depth': '140' };
  expect(proposalOf(brief({ lining }), written(sizes), (s) => s)).toEqual({
    ok: true,
    act: { act: 'propose', liningMm: { width: 800, height: 2000, depth: 140 } },
  });
});

test('what is made as it stands is not asked for; the way in is asked as the brief tells it', () => {
  const fixed = brief({});
  const stands = { ...fixed, carcassMm: { ...fixed.carcassMm, depth: { nominalMm: 480, find: false } } };
  expect([asItStands('carcass-depth', stands), asItStands('carcass-width', stands)]).toEqual(['480', '']);
  expect(questionsOf(brief({ access: null }))).toEqual([]);
  const access = { clearHeightMm: 2300, plinthSeparate: true, door: { widthMm: 700, heightMm: 1960 } };
  expect(questionsOf(brief({ access })).map((q) => q.question)).toEqual(['stand-up', 'door']);
});

test('how sure goes with the sizes that are to be found, where it was said', () => {
  const sure = { ...none, 'carcass-width': 'sure', 'carcass-depth': 'guess' } as NonNullable<Written['sure']>;
  const said = proposalOf(brief({}), written(carcass, { sure }), (size) => size);
  expect(said.ok && said.act.sure).toEqual({ 'carcass-width': 'sure', 'carcass-depth': 'guess' });
  const silent = proposalOf(brief({}), written(carcass), (size) => size);
  expect(silent.ok && 'sure' in silent.act).toBe(false);
});
