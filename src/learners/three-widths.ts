/**
 * The learner who measures three widths at the front: tapes wall to wall low, in the middle and at the head, floor to
 * ceiling at left, middle and right, and reads three depths in the middle of the back from a level stood by eye.
 *
 * It sees what anyone sees: under a cornice that stays it tapes to the cornice, beside a skirting that stays to the skirting.
 */
import { forWorkshop, offsetsOverMade, type SizeName } from '../survey/size.ts';
import type { Survey } from '../survey/survey.ts';
import { handsByBay, proposeTogether } from './bay-hand.ts';
import { type Hand, readAndBook, takeInHand, tapeAndBook } from './hand.ts';
import { proposeSizes } from './proposing.ts';
import { carcassHeights, evenSteps } from './reading-plan.ts';

/** Surveys by three tape widths at the front. */
export function surveyByThreeWidths(start: Survey): Survey {
  const hand = takeInHand(start);
  const hands = handsByBay(hand);
  for (const own of hands) threeOf(own);
  proposeTogether(hand, hands);
  hand.act({ act: 'hand-in' });
  return hand.now();
}

function threeOf(hand: Hand): void {
  const { brief, spec } = hand.now().world.exercise;
  for (const trim of spec.trims) if (brief.fates[trim.name] === 'off') hand.act({ act: 'clear', trim: trim.name });
  const { height, width } = brief.openingMm;
  hand.act({ act: 'stand', xMm: 0, yMm: 0 - (brief.setBackMm ?? 0), heightMm: Math.round(height * 0.45) });
  hand.act({ act: 'settle' });
  const heights = carcassHeights(brief);
  const cornice = spec.trims.some((t) => t.kind === 'cornice' && brief.fates[t.name] === 'stays');
  const threeUp = evenSteps(heights.from, heights.to - 150, 3);
  const under = brief.carcassFrontMm + brief.carcassMm.depth.nominalMm;
  const widths = threeUp.flatMap((zMm) =>
    taken(tapeAndBook(hand, { place: { surface: 'left', yMm: 0, zMm }, to: 'right' })),
  );
  const tape = (yMm: number, sizes: readonly SizeName[]) =>
    evenSteps(-width / 3, width / 3, 3).flatMap((xMm) =>
      taken(tapeAndBook(hand, { place: { surface: 'floor', xMm, yMm }, to: 'ceiling', words: { for: sizes } })),
    );
  const inFront = tape(0, cornice ? ['frame-height'] : ['carcass-height', 'frame-height']);
  const tall = cornice ? tape(under, ['carcass-height']) : inFront;
  const deep = threeUp.flatMap((zMm) =>
    taken(readAndBook(hand, { datum: 'F', place: { surface: 'back', xMm: 0, zMm } })),
  );
  const made = (size: SizeName, values: readonly number[], pick: (...v: number[]) => number) =>
    values.length === 0 ? {} : { [size]: forWorkshop(size, pick(...values) - offsetsOverMade(size, brief)) };
  proposeSizes(hand, {
    ...made('carcass-width', widths, Math.min),
    ...made('carcass-height', tall, Math.min),
    ...made('carcass-depth', deep, Math.min),
    ...(brief.frame ? { ...made('frame-width', widths, Math.max), ...made('frame-height', inFront, Math.max) } : {}),
  });
}

function taken(booked: { valueMm: number } | null): number[] {
  return booked ? [booked.valueMm] : [];
}
