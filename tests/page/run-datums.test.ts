/** What a run can be read from: the lines of every level that stands, and pencil lines where none does. */
import { describe, expect, it } from 'vitest';
import { writeCode } from '../../src/exercise/exercise-code.ts';
import { openCore } from '../../src/page/state/core.ts';
import { exerciseOfCode } from '../../src/page/state/opening.ts';
import { Run } from '../../src/page/state/run.svelte.ts';
import { Session } from '../../src/page/state/session.svelte.ts';
import type { Act } from '../../src/survey/act.ts';

async function begun(kit: string, ...acts: Act[]) {
  const opened = exerciseOfCode(
    writeCode({ family: 'alcove', severity: 'settled', structure: 'closing', kit, seed: 31 }),
  );
  if (!opened.ok) throw new Error(opened.error.says);
  const session = new Session(openCore(opened.value), { keep: async () => undefined });
  const run = new Run(session);
  for (const act of acts) {
    const { outcome } = await session.act(act);
    if (!outcome.ok) throw new Error(`${JSON.stringify(act)}: ${outcome.error.code}`);
  }
  return { session, run };
}

const stood: Act[] = [{ act: 'stand', xMm: 0, yMm: 0, heightMm: 1100 }, { act: 'settle' }];
const levelMarks: Act[] = [60, 500].map((yMm): Act => ({ act: 'mark', place: { surface: 'left', along: 'L', yMm } }));

describe('a run', () => {
  it('is read from the line of the level in hand, until another is chosen', async () => {
    const { run, session } = await begun(
      'two-levels',
      { ...stood[0], level: 1 } as Act,
      { act: 'settle', level: 1 },
      { act: 'stand', xMm: 40, yMm: -900, heightMm: 1200, level: 2 },
      { act: 'settle', level: 2 },
    );
    expect(run.datums).toEqual(['S2', 'S']);
    expect([run.datum, run.thrown]).toEqual(['S2', true]);
    run.readFrom('S');
    expect(await run.hold(1, 1)).toBe(true);
    expect(run.held?.datum).toBe('S');
    expect(session.view.readings.at(-1)?.datum).toBe('S');
    // What is not there any more is not read from.
    await session.act({ act: 'move', byXMm: 1, byYMm: 0, level: 1 });
    expect(run.datums).toEqual(['S2']);
    expect(run.datum).toBe('S2');
  });

  it('is read from a pencil line when no level throws one', async () => {
    const { run, session } = await begun('site', ...stood, ...levelMarks, { act: 'raise', byMm: 50 });
    expect(session.view.level?.settled).toBe(false);
    run.choose('ceiling');
    expect(run.datums).toEqual(['L:1-2']);
    expect([run.datum, run.thrown]).toEqual(['L:1-2', true]);
    const place = { surface: 'floor', xMm: -642, yMm: 300 } as const;
    const { outcome } = await session.act({ act: 'read', datum: run.datum, place });
    // It lies on the left wall: beside that the rule meets it, in the middle of the room it does not.
    expect(outcome).toMatchObject({ ok: true });
    expect(session.view.readings.at(-1)).toMatchObject({ datum: 'L:1-2' });
    const far = await session.act({ act: 'read', datum: run.datum, place: { ...place, xMm: 0 } });
    expect(far.outcome).toMatchObject({ ok: false, error: { code: 'line/not-there' } });
  });

  it('held by the other end of the rule, the numbers run down from 2000', async () => {
    const { run } = await begun('site', ...stood);
    await run.hold(1, 1);
    const near = run.held?.edgesMm[0] ?? 0;
    run.farEnd = true;
    await run.hold(1, 1);
    expect(Math.abs(2000 - (run.held?.edgesMm[1] ?? 0) - near)).toBeLessThan(6);
  });
});
