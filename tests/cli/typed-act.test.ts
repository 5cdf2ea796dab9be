import { describe, expect, test } from 'vitest';
import { formsFor, readTyped, typedForms } from '../../src/cli/typed-act.ts';
import { openCode, writeCode } from '../../src/exercise/exercise-code.ts';
import { familyOf } from '../../src/recess/families/families.ts';
import type { Act } from '../../src/survey/act.ts';
import { perform } from '../../src/survey/acting.ts';
import { beginSurvey, type Survey } from '../../src/survey/survey.ts';
import { openWorld } from '../../src/survey/world.ts';

const opened = openCode(
  writeCode({ family: 'alcove', severity: 'settled', structure: 'belly', kit: 'guided', seed: 12 }),
);
if (!opened.ok) throw new Error(opened.error.says);
const fresh = beginSurvey(openWorld(opened.value));

function actedOn(acts: readonly Act[], from: Survey = fresh): Survey {
  return acts.reduce((survey, act) => {
    const done = perform(survey, act);
    if (!done.outcome.ok) throw new Error(`${act.act}: ${done.outcome.error.code}`);
    return done.survey;
  }, from);
}

const left = { surface: 'left', yMm: 60, zMm: 1000 } as const;
const measured = actedOn([
  { act: 'stand', xMm: 0, yMm: 0, heightMm: 1000 },
  { act: 'settle' },
  { act: 'read', datum: 'S', place: left },
  { act: 'span', place: left, to: 'right' },
]);

describe('a typed act', () => {
  test.each<[string, unknown]>([
    ['stand 0 -20.5 1100', { act: 'stand', xMm: 0, yMm: -20.5, heightMm: 1100 }],
    ['  STAND 0 0 1100  room ', { act: 'stand', xMm: 0, yMm: 0, heightMm: 1100, facing: 'room' }],
    [
      'stand 0 -900 1100 room over 3 packed level 2',
      { act: 'stand', xMm: 0, yMm: -900, heightMm: 1100, facing: 'room', over: 3, packed: true, level: 2 },
    ],
    [
      'read S back 420 343 edge left',
      { act: 'read', datum: 'S', place: { surface: 'back', xMm: 420, zMm: 343, edge: 'left' } },
    ],
    ['propose run -900 -300.5 300 900', { act: 'propose', runMm: [-900, -300.5, 300, 900] }],
    [
      'propose cut socket 1 412 -640.5 92 96',
      { act: 'propose', cutOutsMm: [{ name: 'socket 1', fromS: 412, fromL: -640.5, width: 92, height: 96 }] },
    ],
    ['propose shelf 312.5', { act: 'propose', shelfMm: { depth: 312.5 } }],
    ['stand 0 0 1100 packed', { act: 'stand', xMm: 0, yMm: 0, heightMm: 1100, packed: true }],
    ['settle level 1', { act: 'settle', level: 1 }],
    ['turn 2 level 2', { act: 'turn', byMmPerM: 2, level: 2 }],
    ['check level side', { act: 'check', check: 'level', of: 'side' }],
    ['check plumb f level 2', { act: 'check', check: 'plumb', of: 'F', level: 2 }],
    ['check square', { act: 'check', check: 'square' }],
    ['verdict plumb use 0.2', { act: 'check', check: 'plumb', verdict: 'use', errorMmPerM: 0.2 }],
    [
      'verdict plumb use 0.6 F allow',
      { act: 'check', check: 'plumb', verdict: 'use', errorMmPerM: 0.6, of: 'F', allow: true },
    ],
    [
      'verdict square use -0.6 allow',
      { act: 'check', check: 'square', verdict: 'use', errorMmPerM: -0.6, allow: true },
    ],
    ['verdict square do-not-use', { act: 'check', check: 'square', verdict: 'do-not-use' }],
    ['read F:1-3 floor 200 60', { act: 'read', datum: 'F:1-3', place: { surface: 'floor', xMm: 200, yMm: 60 } }],
    ['read S left 0 1200 far', { act: 'read', datum: 'S', place: { surface: 'left', yMm: 0, zMm: 1200 }, end: 'far' }],
    [
      'edge left 200 1100 1800 v',
      { act: 'edge', place: { surface: 'left', yMm: 200, zMm: 1100 }, lengthMm: 1800, along: 'v' },
    ],
    ['plumb left 200 1100 1200', { act: 'plumb', place: { surface: 'left', yMm: 200, zMm: 1100 }, lengthMm: 1200 }],
    [
      'plumb back 0 1100 1200 round',
      { act: 'plumb', place: { surface: 'back', xMm: 0, zMm: 1100 }, lengthMm: 1200, turnedRound: true },
    ],
    ['345 0 0 300', { act: 'three-four-five', at: { surface: 'floor', xMm: 0, yMm: 0 }, unitMm: 300 }],
    ['settle', { act: 'settle' }],
    ['move 1 -2', { act: 'move', byXMm: 1, byYMm: -2 }],
    ['turn -3.5', { act: 'turn', byMmPerM: -3.5 }],
    ['quarter right', { act: 'turn', byMmPerM: 0, quarters: -1 }],
    ['raise 200', { act: 'raise', byMm: 200 }],
    ['aim F ref -400', { act: 'aim', plane: 'F', at: { referenceXMm: -400 } }],
    ['aim s mark 2', { act: 'aim', plane: 'S', at: { mark: 2 } }],
    ['mark left F 600', { act: 'mark', place: { surface: 'left', along: 'F', zMm: 600 } }],
    ['mark back S2 600', { act: 'mark', place: { surface: 'back', along: 'S2', zMm: 600 } }],
    ['mark left L 60', { act: 'mark', place: { surface: 'left', along: 'L', yMm: 60 } }],
    ['mark floor F -300', { act: 'mark', place: { surface: 'floor', along: 'F', xMm: -300 } }],
    ['rub 2', { act: 'rub-out', mark: 2 }],
    ['clear skirting left', { act: 'clear', trim: 'skirting left' }],
    ['read S left 0 1200', { act: 'read', datum: 'S', place: { surface: 'left', yMm: 0, zMm: 1200 } }],
    ['read s left f 1200', { act: 'read', datum: 'S', place: { surface: 'left', zMm: 1200, along: 'F' } }],
    ['read L ceiling 300 F', { act: 'read', datum: 'L', place: { surface: 'ceiling', xMm: 300, along: 'F' } }],
    ['tape floor 300 60', { act: 'span', place: { surface: 'floor', xMm: 300, yMm: 60 }, to: 'ceiling' }],
    ['span left 0 1200', { act: 'span', place: { surface: 'left', yMm: 0, zMm: 1200 }, to: 'right' }],
    ['book 597.5 from 3', { act: 'book', what: 'offset', datum: 'S', place: left, valueMm: 597.5, reading: 3 }],
    ['book 1194', { act: 'book', what: 'span', place: left, to: 'right', valueMm: 1194, reading: 4 }],
    [
      'book 597 from 3 check',
      { act: 'book', what: 'offset', datum: 'S', place: left, valueMm: 597, reading: 3, check: true },
    ],
    ['strike 14', { act: 'strike', booking: 14 }],
    ['carry S2 S 412', { act: 'carry', from: 'S2', to: 'S', stepMm: 412 }],
    ['carry S2 S 412 from 9', { act: 'carry', from: 'S2', to: 'S', stepMm: 412, reading: 9 }],
    ['say stand-up yes', { act: 'say', question: 'stand-up', answer: 'yes' }],
    ['note Pipe behind the skirting', { act: 'note', text: 'Pipe behind the skirting' }],
    ['propose carcass 1157 2310 340', { act: 'propose', carcassMm: { width: 1157, height: 2310, depth: 340 } }],
    ['propose frame 1186 2440', { act: 'propose', frameMm: { width: 1186, height: 2440 } }],
    ['hand in', { act: 'hand-in' }],
  ])('%s', (line, act) => {
    expect(readTyped(line, measured)).toEqual({ act });
  });

  test.each([
    'stand 0 0',
    'stand 0 0 1100 room now',
    'stand 0 0 1e3',
    'settle now',
    'move 1',
    'turn',
    'quarter',
    'quarter round',
    'aim F 400',
    'aim F ref',
    'mark left F',
    'mark left 600 F',
    'rub two',
    'clear',
    'read S left 0',
    'read S left 0 1200 99',
    'read S left F S',
    'read left 0 1200',
    'read S wall 0 1200',
    'tape back 0 1200',
    'book',
    'book 500 form 3',
    'book 500 3',
    'book 500 from',
    'strike',
    'carry S2 412',
    'say stand-up',
    'note',
    'propose 1157 2310 340',
    'propose carcass 1157 2310',
    'propose frame 1157 2310 340',
    'hand',
    'hand over',
    'undo all',
    'bay',
    'bay 2',
    'bay right now',
    'help me',
  ])('%s is not guessed at: the form is shown', (line) => {
    const typed = readTyped(line, measured);
    const form = typedForms.find(([f]) => f.split(' ')[0] === line.split(' ')[0])?.[0];
    expect(form).toBeDefined();
    expect(typed).toEqual({ complaint: `expected ${form}, got ${JSON.stringify(line)}` });
  });

  test('a word that is none, or is one of the language itself, is no act', () => {
    for (const line of ['fly', 'toString', '__proto__', 'constructor 1'])
      expect(readTyped(line, fresh)).toEqual({
        complaint: `${JSON.stringify(line.split(' ')[0])} is not an act; type help`,
      });
  });

  test('nothing is booked before there is a reading, nor from an act that was none', () => {
    const complaint = 'there is no reading to book: read first, or say from which act';
    expect(readTyped('book 500', fresh)).toEqual({ complaint });
    expect(readTyped('book 500 from 2', measured)).toEqual({ complaint });
    expect(readTyped('book 500 from 99', measured)).toEqual({ complaint });
  });

  test('undo takes back the later of booking and mark, each by an act', () => {
    expect(readTyped('undo', fresh)).toEqual({ complaint: 'there is no booking and no mark to take back' });
    const marked = actedOn([{ act: 'mark', place: { surface: 'left', along: 'L', yMm: 60 } }], measured);
    expect(readTyped('undo', marked)).toEqual({ act: { act: 'rub-out', mark: 1 } });
    const booked = actedOn([{ act: 'book', what: 'offset', datum: 'S', place: left, valueMm: 1, reading: 3 }], marked);
    expect(readTyped('undo', booked)).toEqual({ act: { act: 'strike', booking: 6 } });
    expect(readTyped('undo', actedOn([{ act: 'strike', booking: 6 }], booked))).toEqual({
      act: { act: 'rub-out', mark: 1 },
    });
  });

  test('a proposal keeps the part that was proposed before', () => {
    const half = actedOn([{ act: 'propose', frameMm: { width: 1186, height: 2440 } }], measured);
    expect(readTyped('propose carcass 1 2 3', half)).toEqual({
      act: {
        act: 'propose',
        carcassMm: { width: 1, height: 2, depth: 3 },
        frameMm: { width: 1186, height: 2440 },
      },
    });
  });

  test('a recess of a pair is turned to', () => {
    expect(readTyped('bay right', measured)).toEqual({ bay: 2 });
    expect(readTyped('BAY left', measured)).toEqual({ bay: 1 });
  });

  test('help has what the kit and the room give a use for', () => {
    const forms = (family: string, kit: string) => {
      const structure = familyOf(family).structures[0]!.name;
      const its = openCode(writeCode({ family, severity: 'settled', structure, kit, seed: 12 }));
      if (!its.ok) throw new Error(its.error.says);
      return formsFor(openWorld(its.value)).map(([form]) => form.split(' ')[0]);
    };
    for (const verb of ['check', 'verdict', 'edge', 'plumb', '345', 'bay'])
      expect(forms('alcove', 'guided')).not.toContain(verb);
    for (const verb of ['check', 'verdict', 'edge', 'plumb', '345']) expect(forms('alcove', 'faulty')).toContain(verb);
    expect(forms('alcove-pair', 'guided')).toContain('bay');
    expect(forms('alcove', 'guided')).toContain('read');
  });
});
